using System.Globalization;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Tests.Host;

/// <summary>What goes into the database comes out as it went in, type by type.</summary>
public sealed class RoundTripTests : IDisposable
{
    private readonly ApiHost host = new();

    [Theory]
    [InlineData("2026-06-15T00:30:00.123+02:00", "2026-06-14T22:30:00.123Z")]
    [InlineData("2026-06-14T22:30:00.123Z", "2026-06-14T22:30:00.123Z")]
    [InlineData("1981-01-01T13:00:00.000+13:45", "1980-12-31T23:15:00.000Z")]
    public void Instant_has_one_text_form_and_keeps_its_own_clock(string written, string stored)
    {
        var instant = DateTimeOffset.Parse(written, CultureInfo.InvariantCulture);

        Assert.Equal(stored, Times.Write(instant));
        Assert.Equal(instant, Times.Read(stored));
        Assert.Equal(instant.Offset, Times.Read(stored, Times.Offset(instant)).Offset);
    }

    [Fact]
    public void Instants_as_text_sort_as_they_follow_in_time()
    {
        DateTimeOffset[] instants =
        [
            new(1999, 12, 31, 23, 59, 59, 999, TimeSpan.Zero), new(2000, 1, 1, 3, 0, 0, TimeSpan.FromHours(2)), new(2000, 1, 1, 2, 0, 0, TimeSpan.Zero),
        ];

        Assert.Equal(instants.Select(Times.Write), instants.Select(Times.Write).Order(StringComparer.Ordinal));
        Assert.True(string.CompareOrdinal(Times.Write(instants[^1]), Times.End) < 0);
    }

    [Theory]
    [InlineData("1.10", "EUR", 110, "1.10")]
    [InlineData("0.3", "EUR", 30, "0.30")]
    [InlineData("1500", "JPY", 1500, "1500")]
    [InlineData("1.234", "KWD", 1234, "1.234")]
    [InlineData("0", "EUR", 0, "0.00")]
    [InlineData("999999.99", "USD", 99999999, "999999.99")]
    public void Money_is_whole_minor_units_of_its_currency(string amount, string currency, long minor, string back)
    {
        var value = decimal.Parse(amount, CultureInfo.InvariantCulture);

        Assert.True(Amounts.IsWhole(value, currency));
        Assert.Equal(minor, Amounts.ToMinor(value, currency));
        Assert.Equal(back, Amounts.FromMinor(minor, currency).ToString(CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Money_finer_than_its_currency_is_not_whole()
    {
        Assert.False(Amounts.IsWhole(0.5m, "JPY"));
        Assert.False(Amounts.IsWhole(0.001m, "EUR"));
    }

    [Theory]
    [InlineData("0.1")]
    [InlineData("71.5")]
    [InlineData("120000")]
    [InlineData("123456.78901234567")]
    [InlineData("1E-05")]
    public async Task Number_comes_back_bit_for_bit(string number)
    {
        var made = await host.Post($"/v1/vehicles/{await host.Vehicle()}/odometer", $$"""{ "date": "2020", "reading": { "value": {{number}}, "unit": "mi" } }""");

        var back = (await host.Get($"/v1/odometer/{made.Id}")).Body.GetProperty("reading").GetProperty("value").GetDouble();
        Assert.Equal(double.Parse(number, CultureInfo.InvariantCulture), back);
    }

    [Theory]
    [InlineData("tab\tand\nline feed")]
    [InlineData("'; DROP TABLE vehicle; --")]
    [InlineData("Ä ß İ ﬁ 漢字 \U0001F697\u200D\U0001F527 \u202Eabc\u202C")]
    [InlineData("true")]
    [InlineData("1e5")]
    public async Task Text_comes_back_letter_for_letter(string text)
    {
        var made = await host.Post("/v1/vehicles", new { name = "x", year = "1981", system = "test-circuit", note = text, recordComplete = true });

        var back = await host.Get($"/v1/vehicles/{made.Id}");
        Assert.Equal(text, back.Member("note"));
        Assert.Equal("True", back.Member("recordComplete"));
        Assert.Equal("", back.Member("engine"));
    }

    [Theory]
    [InlineData("1987")]
    [InlineData("1987-06")]
    [InlineData("1987-06-03")]
    public async Task Date_stays_as_vague_as_it_was_entered(string date)
    {
        var made = await host.Post($"/v1/vehicles/{await host.Vehicle()}/incidents", new { date, kind = "ran-dry" });

        Assert.Equal(date, (await host.Get($"/v1/incidents/{made.Id}")).Member("date"));
    }

    public void Dispose() => host.Dispose();
}
