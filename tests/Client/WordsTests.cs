using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Xunit;

namespace FuelHistory.Tests.Client;

public sealed class WordsTests
{
    [Theory]
    [InlineData("plain", "plain")]
    [InlineData("a\tb\nc", "a b c")]
    [InlineData("\u001b[31mred\u001b[0m", "[31mred[0m")]
    [InlineData("bell\u0007 nul\0", "bell nul")]
    [InlineData("safe\u202Eexe.txt", "safeexe.txt")]
    [InlineData("zero\u200Bwidth", "zerowidth")]
    public void Clean_of_hostile_text_leaves_nothing_that_acts(string text, string clean) => Assert.Equal(clean, Clean.Of(text, Signs.Unicode));

    [Fact]
    public void Clean_in_ascii_is_printable_ascii_only() =>
        Assert.All(Clean.Of("Überdruck 20 °C, 5 Ω, naïve 漢字 → ×3 – “x”", Signs.Plain), letter => Assert.InRange(letter, ' ', '~'));

    [Fact]
    public void Cut_of_a_long_text_ends_in_the_sign_and_fits()
    {
        Assert.Equal("a long te…", Cells.Cut("a long text", 10, Signs.Unicode));
        Assert.Equal("a long text", Cells.Cut("a long text", 11, Signs.Unicode));
        Assert.Equal(9, Cells.Width(Cells.Cut("漢字漢字漢字", 10, Signs.Unicode)));
        Assert.Equal(10, Cells.Width(Cells.Fit("漢字漢字漢字", 10, Signs.Unicode)));
    }

    [Fact]
    public void Wrap_breaks_at_blanks_and_breaks_longer_words()
    {
        Assert.Equal(["one two", "three"], Cells.Wrap("one two three", 8));
        Assert.Equal(["abcde", "fgh"], Cells.Wrap("abcdefgh", 5));
        Assert.All(Cells.Wrap(new string('x', 500) + " " + new string('漢', 90), 30), line => Assert.InRange(Cells.Width(line), 1, 30));
    }

    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(0.0001, "<1 %")]
    [InlineData(0.384, "38 %")]
    [InlineData(0.9999, ">99 %")]
    [InlineData(1, "100 %")]
    [InlineData(double.NaN, "?")]
    public void Percent_never_hides_a_remainder(double share, string text) => Assert.Equal(text, Figures.Percent(share));

    [Theory]
    [InlineData(0, "0 EUR")]
    [InlineData(0.2, "<1 EUR")]
    [InlineData(0.6, "1 EUR")]
    [InlineData(-3, "-3 EUR")]
    public void Cost_of_a_trifle_is_not_nothing(double amount, string text) => Assert.Equal(text, Figures.Cost(amount, "EUR"));

    [Theory]
    [InlineData(0, 10, "..........")]
    [InlineData(0.001, 10, "-.........")]
    [InlineData(0.5, 10, "#####.....")]
    [InlineData(0.55, 10, "#####-....")]
    [InlineData(1, 10, "##########")]
    [InlineData(7, 10, "##########")]
    public void Bar_of_a_share_has_its_length_to_the_half_cell(double share, int cells, string bar) => Assert.Equal(bar, Figures.Bar(share, cells, Signs.Plain));

    [Theory]
    [InlineData(0.35, "words", "about one in three")]
    [InlineData(0.999, "words", "almost certain")]
    [InlineData(0.001, "words", "hardly possible")]
    [InlineData(0.35, "percent", "a 35 % chance")]
    [InlineData(0.001, "percent", "a chance below 1 %")]
    [InlineData(0.8, "odds", "odds of 4 to 1")]
    [InlineData(0.1, "odds", "odds of 1 to 9")]
    [InlineData(1, "odds", "odds of >99 to 1")]
    public void Chance_is_said_as_the_settings_want_it(double p, string style, string text) => Assert.Equal(text, PlainFigures.Chance(p, style));

    [Theory]
    [InlineData(8, 6.5, 9.2, "falls to a third in 6 to 10 minutes")]
    [InlineData(30, 20, 60, "falls to a third in 20 minutes to about an hour")]
    [InlineData(40, 0, 592.1, "how fast it falls cannot be said yet")]
    [InlineData(0.5, 0.4, 1.5, "falls to a third in half a minute to 1 and a half minutes")]
    public void Fall_is_said_in_minutes_or_not_at_all(double median, double low, double high, string text) => Assert.Equal(text, new TauInterval(median, low, high).Words());

    [Theory]
    [InlineData(3.24, "x3.2")]
    [InlineData(0.2, "/5")]
    [InlineData(1, "x1")]
    [InlineData(1e9, ">x999")]
    [InlineData(0, "</999")]
    public void Factor_reads_as_times_or_divided(double factor, string text) => Assert.Equal(text, Figures.Factor(factor, PlainFigures.Percent, Signs.Plain));

    [Theory]
    [InlineData("4.9", true, 4.9)]
    [InlineData("4,9", true, 4.9)]
    [InlineData(" -1.5e2 ", true, -150)]
    [InlineData("84,210", false, 0)]
    [InlineData("1,234.5", true, 1234.5)]
    [InlineData("1.234,5", true, 1234.5)]
    [InlineData("0,210", true, 0.21)]
    [InlineData("1.234", true, 1.234)]
    [InlineData("84 210", true, 84210)]
    [InlineData("84 21", false, 0)]
    [InlineData("NaN", false, 0)]
    [InlineData("1e999", false, 0)]
    [InlineData("bar", false, 0)]
    public void Number_with_a_comma_that_may_mean_thousands_is_refused(string text, bool good, double value)
    {
        Assert.Equal(good, Draft.TryNumber(text, out var read));
        if (good) Assert.Equal(value, read);
    }

    [Fact]
    public void Draft_reads_measures_points_and_days()
    {
        FixedClock clock = new(new DateTimeOffset(2026, 6, 15, 9, 30, 0, TimeSpan.Zero));
        Draft draft = new(clock);
        Assert.Equal(new Measured(71, "psi"), draft.Measure(Typed("71psi"), "bar"));
        Assert.Equal(new Measured(4.9, "bar"), draft.Measure(Typed("4.9"), "bar"));
        Assert.Equal([new PressurePoint(10, new(0.8, "bar")), new PressurePoint(20, new(7, "psi"))], draft.Points(Typed("10: 0.8; 20 min: 7 psi"), "bar"));
        Assert.Equal([new LimitPoint(Minutes: 10, Low: 2), new LimitPoint(At: 20, Low: 1.2, High: 1.5)], draft.LimitPoints(Typed("10: 2.0; 20: 1.2..1.5")));
        Assert.Equal("2026-06-12", draft.Day(Typed("-3")));
        Assert.Equal("2022-10-14", draft.Day(Typed("14.10.2022")));
        Assert.Equal("about 1995", draft.Day(Typed("about 1995")));
        Assert.Equal("between 1990-03 and 1995-06-03", draft.Day(Typed("between 3.1990 and 3.6.1995")));
        Assert.Equal("2026-06-15", draft.Day(Typed("today")));
        Assert.Equal("1981~", draft.Day(Typed("1981~")));
        Assert.Equal(new Money(120, "EUR"), draft.Money(Typed("120"), "EUR"));
        Assert.Equal(clock.GetLocalNow(), draft.Moment(Typed("now")));
        Assert.Equal(new DateTimeOffset(2026, 1, 2, 3, 4, 0, TimeSpan.FromHours(5)), draft.Moment(Typed("2026-01-02T03:04+05:00")));
        Assert.Empty(draft.Faults);
    }

    [Theory]
    [InlineData("4..9 bar")]
    [InlineData("bar")]
    public void Draft_of_an_unreadable_measure_names_the_field(string text)
    {
        Draft draft = new(TimeProvider.System);
        Assert.Null(draft.Measure(Typed(text), "bar"));
        Assert.Equal("/reading", Assert.Single(draft.Faults).Pointer);
    }

    [Fact]
    public void Names_find_by_id_title_or_a_beginning_that_fits_one()
    {
        IReadOnlyList<NamedThing> things = [new("pump", "Fuel pump"), new("pump-fuse", "Fuse"), new("accumulator", "Fuel accumulator")];
        Assert.Equal("pump", Names.One(things, "PUMP").Found?.Id);
        Assert.Equal("accumulator", Names.One(things, "acc").Found?.Id);
        Assert.Equal("pump-fuse", Names.One(things, "Fus").Found?.Id);
        Assert.Contains("fits several", Names.One(things, "Fuel").Wrong, StringComparison.Ordinal);
        Assert.Contains("not known", Names.One(things, "zzz").Wrong, StringComparison.Ordinal);
    }

    private static TypedField Typed(string text) => new("reading", "Reading", "", text);

    internal sealed class FixedClock(DateTimeOffset now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => now;

        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;
    }
}
