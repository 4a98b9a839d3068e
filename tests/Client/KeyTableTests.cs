using System.Reflection;
using FuelHistory.Client;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class KeyTableTests
{
    private static readonly IReadOnlyList<KeyUse> All = [.. typeof(Keys).GetFields(BindingFlags.Public | BindingFlags.Static).Select(each => (KeyUse)each.GetValue(null)!)];

    [Fact]
    public void Letters_each_mean_one_thing_outside_of_questions()
    {
        // y and n answer a question that is on the screen; everywhere else they have their own meaning
        var letters = All.Where(use => use.Shown.Length == 1 && char.IsLetter(use.Shown[0]) && use != Keys.Yes && use != Keys.No);
        Assert.All(letters.GroupBy(use => use.Key), same => Assert.Single(same));
    }

    [Fact]
    public void Every_key_has_a_sentence_and_is_written_as_it_is_pressed()
    {
        Assert.All(All, use => Assert.NotEmpty(use.Help));
        Assert.All(All.Where(use => use.Shown.Length == 1), use => Assert.Equal(use.Shown[0], (char)use.Key.AsRune.Value));
    }

    [Fact]
    public void Footer_and_help_of_every_screen_come_from_its_table()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        Compare(host);
        host.Press(Key.Enter);
        host.WaitFor("Fuel pump fitted");
        Compare(host);
        host.Press(Key.Enter);
        host.WaitFor("Pressure regulator seal");
        Compare(host);
        host.Type("f");
        host.WaitFor("What counts");
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "the effect");
        Compare(host);
        host.Press(Key.Esc);
        host.WaitUntil(() => host.Desk.Top.Pending == 0, "what is likely");
        host.Type("k");
        host.WaitFor("Injector tips");
        Compare(host);
        host.Press(Key.Enter);
        host.WaitFor("CAUTION");
        Compare(host);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(132)]
    public void Footer_at_any_width_cuts_no_word_and_keeps_the_help_key(int width)
    {
        var table = All.Where(use => use != Keys.Help).Select(use => new Bound(use, () => { })).Append(new Bound(Keys.Help, () => { })).ToList();
        var rows = FooterLines.Of(table, width, Signs.Plain).Select(line => line.Text).ToList();
        Assert.InRange(rows.Count, 1, 2);
        Assert.All(rows, row => Assert.InRange(row.Length, 1, width));
        var words = table.Select(bound => $"{bound.Use.Shown} {bound.Use.Label}").ToHashSet();
        Assert.All(rows.SelectMany(row => row.Split("  ")), word => Assert.Contains(word, words));
        Assert.EndsWith("? help", rows[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void Key_that_does_nothing_now_says_why()
    {
        using var server = Samples.Server().Get("/v1/vehicles", Array.Empty<Contracts.Vehicle>());
        using ScreenHost host = new(server.Address);
        host.WaitFor("No vehicle");
        host.Press(Key.Enter);
        Assert.Contains("there is no vehicle yet", host.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Enter open", host.Footer, StringComparison.Ordinal);
    }

    /// <summary>Each working key of the table is in the footer, each key at all in the help.</summary>
    private static void Compare(ScreenHost host)
    {
        var table = host.Desk.Top.Keys;
        Assert.All(table.Where(bound => bound.Reason is null && bound.Use.Label.Length > 0), bound => Assert.Contains($"{bound.Use.Shown} {bound.Use.Label}", host.Footer, StringComparison.Ordinal));
        Assert.Contains(host.Desk.Top.Typing is null ? "? help" : "Ctrl+T help", host.Footer, StringComparison.Ordinal);
        host.Press(Key.F1);
        Assert.StartsWith("Keys of:", host.Rows[0], StringComparison.Ordinal);
        var help = string.Join('\n', host.Desk.Top.Lines(400, 24).Select(line => line.Text));
        Assert.All(table, bound => Assert.Contains(bound.Use.Help, help, StringComparison.Ordinal));
        host.Press(Key.Esc);
    }
}
