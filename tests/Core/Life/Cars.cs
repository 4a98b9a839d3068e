using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Life;

/// <summary>A 40-year-old car of which nothing is known, and beliefs about it on the real fault model.</summary>
internal static class Cars
{
    public static readonly DateOnly Day = new(2024, 6, 1);

    public static readonly CarRecord Old = new() { FirstUse = Day.AddYears(-40) };

    /// <summary>What counts as a bad part of the car (MODEL.md 2: neither consumables nor gauges).</summary>
    public static IEnumerable<Component> Counted => ModelFile.Model.Components.Where(c => !c.Consumable && !c.Instrument);

    public static Component Part(string id) => ModelFile.Model.Components.Single(c => c.Id == id);

    public static double[] States(this CarRecord car, string part, DateOnly? ranWell) => new LifePrior(ModelFile.Model, car, Day, ranWell).Of(Part(part));

    public static double Bad(this CarRecord car, string part, DateOnly? ranWell) => 1 - car.States(part, ranWell)[0];

    public static CarRecord With(this CarRecord car, string part, DateOnly day, Known known = Known.DidIt, PartQuality quality = PartQuality.New, WorkAction action = WorkAction.Fitted) =>
        car with { Work = [.. car.Work, new WorkFact($"w{car.Work.Count}", day, action, [part], known, quality, new DateTimeOffset(2024, 1, 1, 0, 0, car.Work.Count, TimeSpan.Zero))] };
}
