using FuelHistory.Core.Life;

namespace FuelHistory.Tests.Core.Life;

public sealed class RoughDateTests
{
    [Theory]
    [InlineData("1987", "1987-01-01", "1987-12-31", "1987-07-02")]
    [InlineData("1988", "1988-01-01", "1988-12-31", "1988-07-02")]
    [InlineData("1987-06", "1987-06-01", "1987-06-30", "1987-06-16")]
    [InlineData("1988-02", "1988-02-01", "1988-02-29", "1988-02-15")]
    [InlineData("1987-06-03", "1987-06-03", "1987-06-03", "1987-06-03")]
    [InlineData("2000-02-29", "2000-02-29", "2000-02-29", "2000-02-29")]
    public void Date_spans_what_it_leaves_open(string text, string earliest, string latest, string middle)
    {
        var date = RoughDate.Parse(text);

        Assert.Equal((earliest, latest, middle, text), ($"{date.Earliest:yyyy-MM-dd}", $"{date.Latest:yyyy-MM-dd}", $"{date.Middle:yyyy-MM-dd}", date.ToString()));
    }

    [Theory]
    [InlineData("1987-13", "no month 13")]
    [InlineData("1987-00", "no month 00")]
    [InlineData("1987-02-29", "days 01 to 28")]
    [InlineData("1987-04-31", "days 01 to 30")]
    [InlineData("1987-04-00", "days 01 to 30")]
    [InlineData("0000", "outside 1885 to 2200")]
    [InlineData("1884", "outside 1885 to 2200")]
    [InlineData("2201", "outside 1885 to 2200")]
    [InlineData("", "is not a date")]
    [InlineData("87", "is not a date")]
    [InlineData("1987-6", "is not a date")]
    [InlineData("1987-06-03-01", "is not a date")]
    [InlineData("1987/06", "is not a date")]
    [InlineData("+987", "is not a date")]
    [InlineData("１９８７", "is not a date")]
    [InlineData(" 1987", "is not a date")]
    public void Text_that_is_no_date_is_refused_with_the_reason(string text, string why)
    {
        Assert.False(RoughDate.TryParse(text, out _, out var said));
        Assert.Contains(why, said, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => RoughDate.Parse(text));
    }

    [Fact]
    public void Dates_sort_by_their_middle_and_the_more_exact_first()
    {
        string[] sorted = ["1986", "1987-01-01", "1987-06", "1987-07-02", "1987", "1987-07", "1988-01"];

        Assert.Equal(sorted, sorted.Reverse().Select(RoughDate.Parse).Order().Select(d => d.Text));
        Assert.True(RoughDate.Parse("1986") < RoughDate.Parse("1987-01"));
        Assert.Equal(RoughDate.Parse("1987"), RoughDate.Parse("1987"));
    }
}
