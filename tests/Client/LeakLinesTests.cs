using FuelHistory.Client.Lines;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using Xunit;

namespace FuelHistory.Tests.Client;

public sealed class LeakLinesTests
{
    private static readonly IReadOnlyList<Glance> Looks = [new("a", 0.5, new(3.1, "bar")), new("b", 4, new(1.9, "bar"))];

    public static TheoryData<string> Kinds => ["braille", "blocks", "ascii"];

    private static Signs Of(string kind) => kind switch { "braille" => Signs.Unicode, "blocks" => Signs.Blocks, _ => Signs.Plain };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Plot_has_limit_readings_band_and_curve_within_its_size(string kind)
    {
        var signs = Of(kind);
        var rows = LeakPlot.Of(Looks, LeakDownTests.Outlook, 5, 80, 10, signs).Select(line => line.Text).ToList();
        Assert.Equal(10, rows.Count);
        Assert.All(rows, row => Assert.InRange(Cells.Width(row), 1, 80));
        Assert.Equal(2, string.Concat(rows.Take(8)).Count(sign => sign is 'o'));
        Assert.Contains("limit |----", string.Concat(rows), StringComparison.Ordinal);
        var painted = string.Concat(rows.Take(8)).Distinct().ToList();
        if (kind is "braille") Assert.Contains(painted, sign => sign is > '\u2800' and < '\u2900');
        if (kind is "blocks") Assert.Contains(painted, sign => "▘▝▀▖▌▞▛▗▚▐▜▄▙▟█".Contains(sign, StringComparison.Ordinal));
        if (kind is "ascii") Assert.All(rows, row => Assert.All(row, sign => Assert.InRange(sign, ' ', '~')));
        if (kind is "ascii") Assert.All(":+", sign => Assert.Contains(sign, painted));
    }

    [Fact]
    public void Plot_puts_a_later_and_lower_reading_to_the_right_and_below()
    {
        var rows = LeakPlot.Of(Looks, LeakDownTests.Outlook, 5, 80, 14, Signs.Plain).Take(12).Select(line => line.Text).ToList();
        var at = rows.SelectMany((row, y) => row.Select((sign, x) => (sign, x, y))).Where(each => each.sign is 'o').OrderBy(each => each.x).ToList();
        Assert.True(at[0].y < at[1].y);
        // half a minute and four of ten minutes across 71 cells
        Assert.InRange(at[1].x - at[0].x, 23, 27);
    }

    [Fact]
    public void Plot_without_a_reading_has_axes_only()
    {
        var rows = LeakPlot.Of([], null, 0, 60, 8, Signs.Plain);
        Assert.Contains("10 min", rows[^2].Text, StringComparison.Ordinal);
        Assert.DoesNotContain("limit", string.Concat(rows.Select(row => row.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public void Large_figures_have_the_same_shape_in_ascii()
    {
        var ascii = BigFigures.Of("10,9", Signs.Plain);
        Assert.Equal(BigFigures.Rows, ascii.Count);
        Assert.Single(ascii.Select(row => row.Length).Distinct());
        Assert.Equal(BigFigures.Of("10.9", Signs.Unicode), ascii.Select(row => row.Replace('#', '█')));
        Assert.NotEqual(BigFigures.Of("3", Signs.Plain), BigFigures.Of("8", Signs.Plain));
    }

    [Theory]
    [InlineData(60, 12)]
    [InlineData(80, 20)]
    [InlineData(132, 40)]
    public void Screen_fills_no_more_than_its_size_and_always_has_clock_verdict_and_caution(int width, int height)
    {
        var lines = LeakLines.Of(State(TimeSpan.FromSeconds(241)), width, height, Signs.Unicode);
        Assert.InRange(lines.Count, 8, height);
        Assert.All(lines, line => Assert.InRange(Cells.Width(line.Text), 0, width));
        // a sentence may be wrapped
        var text = string.Join(' ', lines.Select(line => line.Text.Trim()));
        Assert.All(["04:01", "you may stop", "CAUTION", "a steady seep"], words => Assert.Contains(words, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Old_verdict_says_as_of_when_it_is()
    {
        var lines = LeakLines.Of(State(TimeSpan.FromMinutes(6)) with { UpToDate = false, Waiting = 2, Silent = true }, 80, 20, Signs.Unicode);
        var text = string.Join('\n', lines.Select(line => line.Text));
        Assert.Contains("As of 04:00, without what waits", text, StringComparison.Ordinal);
        Assert.Contains("NO CONNECTION: kept here, waiting: 2", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("xterm", true)]
    [InlineData("linux", false)]
    public void Braille_is_left_out_where_the_terminal_has_none(string term, bool braille) =>
        Assert.Equal(braille, Surroundings.SignsFor(false, name => name switch { "TERM" => term, "LANG" => "C.UTF-8", _ => null }).Braille);

    private static LeakState State(TimeSpan clock) => new(Samples.ReturnShut, "bar", clock, Looks, LeakDownTests.Outlook, true, null, default, 0, false, false, null, FuelHistory.Client.Forms.LeakDetails.None);
}
