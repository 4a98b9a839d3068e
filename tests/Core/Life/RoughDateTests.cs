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
    [InlineData("about 1995", "1992-01-01", "1998-12-31", "1995-07-02")]
    [InlineData("1995~", "1992-01-01", "1998-12-31", "1995-07-02")]
    [InlineData("about 1995-02", "1994-11-01", "1995-05-31", "1995-02-15")]
    [InlineData("about 1995-02-01", "1995-01-29", "1995-02-04", "1995-02-01")]
    [InlineData("between 1990 and 1991-03", "1990-01-01", "1991-03-31", "1990-08-16")]
    [InlineData("before 1995", "1884-12-31", "1994-12-31", "1994-12-31")]
    [InlineData("after 1995-02", "1995-03-01", "2201-01-01", "1995-03-01")]
    [InlineData("unknown", "1884-12-31", "2201-01-01", "1884-12-31")]
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
    [InlineData("about", "is not a date")]
    [InlineData("about 95", "is not a date")]
    [InlineData("before 1995-13", "no month 13")]
    [InlineData("before 1885", "no day is left")]
    [InlineData("between 1995 and 1990", "the earlier one first")]
    [InlineData("~", "is not a date")]
    [InlineData("１９８７", "is not a date")]
    [InlineData(" 1987", "is not a date")]
    public void Text_that_is_no_date_is_refused_with_the_reason(string text, string why)
    {
        Assert.False(RoughDate.TryParse(text, out _, out var said));
        Assert.Contains(why, said, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => RoughDate.Parse(text));
    }

    [Theory]
    [InlineData("Between  1990 AND 1995", "between 1990 and 1995")]
    [InlineData("UNKNOWN", "unknown")]
    [InlineData("1995~", "1995~")]
    public void Text_is_kept_in_small_letters_with_one_space(string text, string kept) => Assert.Equal(kept, RoughDate.Normal(text));

    [Fact]
    public void Dates_sort_by_their_middle_and_the_more_exact_first()
    {
        string[] sorted = ["1986", "1987-01-01", "1987-06", "1987-07-02", "1987", "1987-07", "1988-01"];

        Assert.Equal(sorted, sorted.Reverse().Select(RoughDate.Parse).Order().Select(d => d.Text));
        Assert.True(RoughDate.Parse("1986") < RoughDate.Parse("1987-01"));
        Assert.Equal(RoughDate.Parse("1987"), RoughDate.Parse("1987"));
    }
}
