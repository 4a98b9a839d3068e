using FuelHistory.Core.FaultModels;
using Xunit;

namespace FuelHistory.Tests.FaultModels.Rates;

public class OccurrenceTests
{
    private static readonly Dictionary<string, string> AsListed = [];

    private static Occurrence At(int years, double km, Dictionary<string, string>? otherwise = null) =>
        ModelRates.At("port-airflow", new RatedCar(years, km), otherwise ?? AsListed);

    [Fact]
    public void Breakdowns_are_no_more_than_what_is_noticed_and_that_no_more_than_what_is_there()
    {
        Occurrence car = At(8, 110_000);

        Assert.All(car.Modes, m =>
        {
            Assert.InRange(car.Breakdown(m.Part, m.Mode), 0, car.Noticed(m.Part, m.Mode));
            Assert.InRange(car.Noticed(m.Part, m.Mode), 0, car.Present(m.Part, m.Mode));
        });
    }

    /// <summary>A dead pump stops most cars, a sensor that has aged stops none.</summary>
    [Theory]
    [InlineData("pump", "dead", 0.5, 1)]
    [InlineData("lambda-sensor", "aged", 0, 0.01)]
    public void Breakdown_of_a_mode_is_the_share_that_immobilises(string part, string mode, double low, double high)
    {
        Occurrence car = At(8, 110_000);
        (Component found, int at) = car.Modes.Single(m => m.Part.Id == part && m.Part.Modes[m.Mode].Id == mode);

        Assert.InRange(car.Breakdown(found, at) / car.Noticed(found, at), low, high);
    }

    /// <summary>At shape 1 the rate is 1/A a year; spread, unnoticed share and parts fitted in between move it a little.</summary>
    [Fact]
    public void Noticed_within_a_year_is_about_the_rate_of_the_file()
    {
        Occurrence car = At(8, 110_000);
        (Component part, int mode) = car.Modes.Single(m => m.Part.Id == "main-relay" && m.Part.Modes[m.Mode].Id == "dead");

        Assert.Equal(1, part.Modes[mode].Life.Shape);
        Assert.InRange(car.Noticed(part, mode) * part.Modes[mode].Life.Years!.Value, 0.7, 1.3);
    }

    [Fact]
    public void Modes_of_a_part_that_the_car_has_not_are_not_counted()
    {
        Assert.DoesNotContain(At(8, 110_000).Modes, m => m.Part.Id == "hot-wire-meter");
        Assert.Contains(At(8, 110_000, new() { ["air-meter"] = "hot-wire" }).Modes, m => m.Part.Id == "hot-wire-meter");
    }

    [Fact]
    public void Picked_with_a_mark_is_left_out_of_its_group_only()
    {
        Occurrence car = At(8, 110_000);
        List<string> generator = [.. ModelRates.Picked(car, ["generator"]).Select(m => $"{m.Part.Id}.{m.Part.Modes[m.Mode].Id}")];
        List<string> both = [.. ModelRates.Picked(car, ["generator", "battery"]).Select(m => $"{m.Part.Id}.{m.Part.Modes[m.Mode].Id}")];

        Assert.DoesNotContain("charging.drains-standing", generator);
        Assert.Contains("charging.drains-standing", both);
        Assert.Equal(both.Count, both.Distinct().Count());
    }
}
