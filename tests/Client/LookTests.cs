using FuelHistory.Client.Words;
using Terminal.Gui.Drawing;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class LookTests
{
    [Fact]
    public void Without_colour_no_cell_has_one_and_the_mark_is_reversed()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address, colour: false);
        LikelyScreenTests.Open(host);
        var cells = host.Driver.Contents!.Cast<Cell>().ToList();
        Assert.All(cells, cell => Assert.True(cell.Attribute is null || (cell.Attribute.Value.Foreground == Color.None && cell.Attribute.Value.Background == Color.None)));
        Assert.Contains(cells, cell => cell.Attribute is { } attribute && attribute.Style.HasFlag(TextStyle.Reverse));
        Assert.DoesNotMatch("\u001b\\[[0-9;]*(3[0-8]|4[0-8]|9[0-7]|10[0-7])[0-9;]*m", host.Driver.ToAnsi());
    }

    [Fact]
    public void With_colour_the_bars_have_one()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        LikelyScreenTests.Open(host);
        Assert.Contains(host.Driver.Contents!.Cast<Cell>(), cell => cell.Attribute is { } attribute && attribute.Foreground == new Color(ColorName16.Cyan));
    }

    [Fact]
    public void In_ascii_the_whole_screen_is_ascii()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address, ascii: true);
        LikelyScreenTests.Open(host);
        Assert.All(host.Text.Where(letter => letter != '\n'), letter => Assert.InRange(letter, ' ', '~'));
    }

    [Fact]
    public void Too_small_a_terminal_says_the_sizes_and_still_quits()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Resize(50, 10);
        Assert.Contains("This needs 60 x 16; the terminal has 50 x 10.", host.Text, StringComparison.Ordinal);
        host.Type("a");
        host.Resize(132, 50);
        Assert.Contains("Blue hatch", host.Text, StringComparison.Ordinal);
        host.Resize(20, 5);
        host.Press(Key.Q.WithCtrl);
        Assert.True(host.Ended);
    }

    [Fact]
    public void Half_filled_form_survives_a_resize_storm()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        host.WaitFor("Blue hatch");
        host.Type("a");
        host.WaitForForm("Add a vehicle");
        host.Type("Half filled");
        foreach (var (width, height) in ((int, int)[])[(200, 60), (40, 10), (20, 5), (80, 24)]) host.Resize(width, height);
        Assert.Contains("Half filled", host.Text, StringComparison.Ordinal);
        host.Type("!");
        host.WaitFor("Half filled!");
    }

    [Theory]
    [InlineData(false, null, true)]
    [InlineData(false, "", true)]
    [InlineData(false, "1", false)]
    [InlineData(true, null, false)]
    public void Colour_follows_the_option_then_the_environment(bool option, string? noColor, bool colour) =>
        Assert.Equal(colour, Surroundings.Colour(option, name => name is "NO_COLOR" ? noColor : null));

    [Theory]
    [InlineData(false, false, "xterm", true)]
    [InlineData(true, false, "xterm", false)]
    [InlineData(false, true, "xterm", false)]
    [InlineData(false, false, "dumb", false)]
    [InlineData(false, false, null, false)]
    public void Screen_needs_a_terminal_that_can_paint(bool inputRedirected, bool outputRedirected, string? term, bool screen) =>
        Assert.Equal(screen, Surroundings.HasScreen(inputRedirected, outputRedirected, name => name is "TERM" ? term : null));

    [Theory]
    [InlineData("C", null, true)]
    [InlineData(null, null, true)]
    [InlineData("en_GB.UTF-8", null, false)]
    [InlineData("en_GB.UTF-8", "C", true)]
    public void Signs_are_ascii_where_the_locale_is_not_utf8(string? lang, string? all, bool ascii) =>
        Assert.Equal(ascii, Surroundings.SignsFor(false, name => name is "LANG" ? lang : name is "LC_ALL" ? all : null).Ascii);
}
