using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class ScrollTests
{
    private static readonly IReadOnlyList<NamedThing> Many = [.. Enumerable.Range(1, 102).Select(i => new NamedThing($"id-{i}", $"Thing number {i}."))];

    public static TheoryData<int, int> Sizes => new() { { 80, 24 }, { 60, 16 }, { 132, 50 } };

    [Theory]
    [MemberData(nameof(Sizes))]
    public void Mark_of_a_long_list_is_seen_after_every_key(int width, int height)
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address, width: width, height: height);
        OpenList(host);
        Key[] keys = [.. Enumerable.Repeat(Key.CursorDown, 40), Key.PageDown, Key.PageDown, Key.CursorUp, Key.End, Key.PageUp, .. Enumerable.Repeat(Key.CursorUp, 30), Key.End, Key.Home];
        foreach (var key in keys)
        {
            host.Press(key);
            AssertMarked(host, host.Desk.Top.Row);
        }
    }

    [Fact]
    public void End_and_home_go_to_the_ends_and_the_place_is_said()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        OpenList(host);
        Assert.Contains("1 of 102, more below", host.Rows[1], StringComparison.Ordinal);
        host.Press(Key.End);
        Assert.Contains("102 of 102, more above", host.Rows[1], StringComparison.Ordinal);
        Assert.Contains("Type to narrow:", host.Text, StringComparison.Ordinal);
        host.Press(Key.Home);
        AssertMarked(host, 0);
    }

    [Fact]
    public void Mark_stays_in_sight_when_the_terminal_shrinks_and_grows()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        OpenList(host);
        for (var i = 0; i < 60; i++) host.Press(Key.CursorDown);
        foreach (var (width, height) in new[] { (60, 16), (100, 40), (40, 10), (80, 24) })
        {
            host.Resize(width, height);
            if (width >= Shell.LeastWidth) AssertMarked(host, 60);
        }
    }

    [Fact]
    public void Blank_at_the_end_of_what_is_typed_survives_a_redraw()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        OpenList(host);
        host.Type("number ");
        host.Desk.Redraw();
        host.Type("77");
        Assert.Contains("Type to narrow: number 77", host.Text, StringComparison.Ordinal);
        Assert.Contains("1 of 102", host.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Record_longer_than_the_screen_scrolls_below_its_head()
    {
        var record = Samples.Record with { Lines = [.. Enumerable.Range(1, 200).Select(i => new RecordLine("finding", $"fin-{i}", 1, "2024-06-01", $"Finding {i}.", null, null, null))] };
        using var server = Samples.Server().Get($"/v1/vehicles/{Samples.VehicleId}/record", record);
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Press(Key.Enter);
        host.WaitFor("Finding 1.");
        host.Press(Key.End);
        Assert.Contains("Finding 200.", host.Text, StringComparison.Ordinal);
        Assert.Contains("1 open complaint", host.Rows[2], StringComparison.Ordinal);
        host.Press(Key.PageUp);
        Assert.Contains(host.Rows, row => row.StartsWith('▸'));
    }

    [Fact]
    public void Fault_below_the_last_field_is_seen_with_it()
    {
        using var server = Samples.Server().Refuse("POST", "/v1/vehicles", 422, Samples.Invalid(new Fault("/note", "required", string.Concat(Enumerable.Repeat("a long sentence about it ", 12)) + "ends here")));
        using ScreenHost host = new(server.Address, width: 60, height: 16);
        host.WaitFor("Blue hatch");
        host.Type("a");
        host.WaitForForm("Add a vehicle");
        host.Press(Key.Tab, Key.Tab, Key.CursorRight, Key.S.WithCtrl);
        Assert.Contains("ends here", host.WaitFor("one thing is to be put right"), StringComparison.Ordinal);
    }

    [Fact]
    public void Line_of_a_list_is_made_only_when_it_is_seen()
    {
        List<int> made = [];
        Listing list = new([Line.Of("head")], 10_000, row =>
        {
            made.Add(row);
            return Line.Of($"{row}", row: row);
        });
        var seen = Seen.Of(list, (5001, 5001), 0, 20, 5000, 10_000);
        Assert.Equal("head", seen.Lines[0].Text);
        Assert.Equal("5000", seen.Lines[^1].Text);
        Assert.Equal(19, made.Distinct().Count());
    }

    private static void OpenList(ScreenHost host)
    {
        host.WaitFor("Blue hatch");
        host.Open(new PickScreen(host.Desk, new PickField("thing", "Things", "", Many, many: true), () => { }));
        Assert.Contains("Thing number 1.", host.Text, StringComparison.Ordinal);
    }

    private static void AssertMarked(ScreenHost host, int row) =>
        Assert.Contains($"Thing number {row + 1}.", host.Rows.Single(line => line.StartsWith('▸')), StringComparison.Ordinal);
}
