using FuelHistory.Client.Forms;
using FuelHistory.Contracts;
using Terminal.Gui.Input;
using Xunit;

namespace FuelHistory.Tests.Client;

[Collection(OneScreenAtATime.Name)]
public sealed class UnderstoodTests
{
    private static readonly DateOnly Today = new(2026, 6, 15);

    [Theory]
    [InlineData("14.10.2022", "2022-10-14", "14 October 2022")]
    [InlineData("14/10/2022", "2022-10-14", "14 October 2022")]
    [InlineData("10/14/2022", "2022-10-14", "14 October 2022")]
    [InlineData("1.2.2022", "2022-02-01", "1 February 2022")]
    [InlineData("10.2022", "2022-10", "October 2022")]
    [InlineData("14 Oct 2022", "2022-10-14", "14 October 2022")]
    [InlineData("October 14, 2022", "2022-10-14", "14 October 2022")]
    [InlineData("1995-6-3", "1995-06-03", "3 June 1995")]
    [InlineData("1995", "1995", "1995")]
    [InlineData("about 1995", "about 1995", "about 1995")]
    [InlineData("ca. 6.1995", "about 1995-06", "about June 1995")]
    [InlineData("1995~", "1995~", "about 1995")]
    [InlineData("Before 1995", "before 1995", "before 1995")]
    [InlineData("after 6.1995", "after 1995-06", "after June 1995")]
    [InlineData("between 1990 and 1995", "between 1990 and 1995", "between 1990 and 1995")]
    [InlineData("1995-1990", "between 1990 and 1995", "between 1990 and 1995")]
    [InlineData("1990s", "between 1990 and 1999", "between 1990 and 1999")]
    [InlineData("unknown", "unknown", "not known")]
    [InlineData("today", "2026-06-15", "15 June 2026")]
    [InlineData("-3", "2026-06-12", "12 June 2026")]
    public void Date_as_people_write_it_is_sent_in_one_form_and_said_back(string text, string sent, string said)
    {
        var read = DateText.Read(text, Today);
        Assert.Equal((sent, said, null), (read?.Sent, read?.Said, read?.Wrong));
    }

    [Theory]
    [InlineData("about 1981", "1981~")]
    [InlineData("1981~", "1981~")]
    [InlineData("1981", "1981")]
    public void Year_that_is_only_about_known_is_sent_with_its_sign(string text, string sent) =>
        Assert.Equal(sent, new Draft(TimeProvider.System).Year(new TypedField("year", "Year", "", text)));

    [Theory]
    [InlineData("31.02.2022")]
    [InlineData("14.13.2022")]
    public void Date_that_cannot_be_is_told_and_not_sent(string text)
    {
        Draft draft = new(TimeProvider.System);
        draft.Day(new TypedField("date", "Date", "", text));
        Assert.Equal("/date", Assert.Single(draft.Faults).Pointer);
    }

    [Fact]
    public void Text_that_is_no_date_goes_to_the_api_as_it_stands()
    {
        Draft draft = new(TimeProvider.System);
        Assert.Equal("14.10.22", draft.Day(new TypedField("date", "Date", "", "14.10.22")));
        Assert.Empty(draft.Faults);
    }

    [Theory]
    [InlineData("84,210", 84210, "km")]
    [InlineData("84.210", 84210, "km")]
    [InlineData("84 210 mi", 84210, "mi")]
    [InlineData("84'210", 84210, "km")]
    [InlineData("1,084,210", 1084210, "km")]
    [InlineData("84,210.5", 84210.5, "km")]
    [InlineData("84210,5", 84210.5, "km")]
    [InlineData("4,9", 4.9, "km")]
    [InlineData("4.9", 4.9, "km")]
    public void Odometer_with_a_mark_before_three_digits_is_thousands(string text, double value, string unit)
    {
        Draft draft = new(TimeProvider.System);
        Assert.Equal(new Measured(value, unit), draft.Measure(new TypedField("reading", "Odometer", "", text), "km", thousands: true));
        Assert.Empty(draft.Faults);
    }

    [Fact]
    public void Reading_that_could_be_either_is_refused_with_both()
    {
        Draft draft = new(TimeProvider.System);
        draft.Measure(new TypedField("reading", "Reading", "", "1,234 ml"), "ml");
        var fault = Assert.Single(draft.Faults).Detail;
        Assert.Contains("1.234 or 1234", fault, StringComparison.Ordinal);
    }

    [Fact]
    public void Figure_that_nobody_knows_is_left_empty()
    {
        Draft draft = new(TimeProvider.System);
        Assert.Null(draft.Measure(new TypedField("odometer", "Odometer", "", "unknown"), "km", thousands: true));
        Assert.Empty(draft.Faults);
    }

    [Theory]
    [InlineData("14.3.2026 15:30", 3, 14, 15, 30)]
    [InlineData("yesterday 9:05", 6, 14, 9, 5)]
    [InlineData("15:30", 6, 15, 15, 30)]
    [InlineData("2026-03-14T15:30", 3, 14, 15, 30)]
    public void Moment_is_read_with_its_day_or_as_of_today(string text, int month, int day, int hour, int minute)
    {
        WordsTests.FixedClock clock = new(new DateTimeOffset(2026, 6, 15, 9, 30, 0, TimeSpan.Zero));
        Assert.Equal(new DateTimeOffset(2026, month, day, hour, minute, 0, TimeSpan.Zero), MomentText.Read(text, clock));
    }

    [Fact]
    public void Odometer_form_says_back_what_it_understood_and_sends_that()
    {
        var path = $"/v1/vehicles/{Samples.VehicleId}/odometer";
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("o");
        host.WaitForForm("Enter an odometer reading");
        for (var i = 0; i < "today".Length; i++) host.Press(Key.Backspace);
        host.Type("14.10.2022");
        Assert.Contains("= 14 October 2022", host.Text, StringComparison.Ordinal);
        host.Press(Key.Tab);
        host.Type("84,210");
        Assert.Contains("= 84210 km", host.Text, StringComparison.Ordinal);
        Assert.Matches("14.10.2022 +.*= 14 October 2022", host.Text);
        host.Press(Key.S.WithCtrl);
        host.WaitUntil(() => server.Count("POST", path) > 0, "the reading sent");
        var sent = server.Sent("POST", path).Single();
        Assert.Equal(("2022-10-14", 84210), ((string?)sent["date"], (int)sent["reading"]!["value"]!));
    }

    [Fact]
    public void Space_on_an_outcome_chooses_none()
    {
        using var server = Samples.Server();
        using ScreenHost host = new(server.Address);
        FormScreenTests.OpenRecord(host);
        host.Type("n");
        host.WaitForForm("Enter a part that was seen");
        host.Press(Key.Tab, Key.Space, Key.Space);
        Assert.Contains("< (choose) >", host.Text, StringComparison.Ordinal);
        host.Press(Key.CursorRight);
        Assert.DoesNotContain("< (choose) >", host.Text, StringComparison.Ordinal);
    }

    /// <summary>People say "cranks long"; the title says "hard to start", the question behind it has their word.</summary>
    [Fact]
    public void Narrowing_finds_the_word_of_the_question_after_all_titles()
    {
        Narrowed<NamedThing> list = new(thing => thing, thing => thing.Id == "a" ? "Does it crank much longer than it should?" : "")
        {
            All = [new("a", "Hard to start"), new("b", "Long cranking"), new("c", "Stalls")],
            Text = "crank",
        };
        Assert.Equal(["b", "a"], list.Fitting.Select(each => each.Id));
    }

    [Fact]
    public void Narrowing_puts_the_title_itself_first_then_beginnings_then_words_then_anything()
    {
        Narrowed<NamedThing> list = new(thing => thing) { All = [new("a", "Unfit pump"), new("b", "Spumpy"), new("c", "Big pump"), new("d", "Pump relay"), new("e", "Pump"), new("f", "Valve"), new("pump", "Other")], Text = " pump" };
        Assert.Equal(["e", "pump", "d", "a", "c", "b"], list.Fitting.Select(thing => thing.Id));
    }
}
