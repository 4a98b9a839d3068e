using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.FaultModels.Rates;

/// <summary>What a fault model says of cars of one age and use that have no record, in the terms of a statistic of such cars.</summary>
internal sealed class Occurrence
{
    /// <summary>Any day; it only fixes the calendar.</summary>
    private static readonly DateOnly Day = new(2020, 7, 1);

    private readonly LifePrior _onTheDay, _aYearLater;
    private readonly DrivesWith _drives;

    public Occurrence(FaultModel model, int years, double km, IReadOnlySet<string> absent)
    {
        Model = model;
        _drives = new DrivesWith(model);
        var car = new CarRecord { FirstUse = Day.AddYears(-years), Odometer = [new OdometerFix(Day, km)], Absent = absent };
        _onTheDay = new LifePrior(model, car, Day, Day);
        _aYearLater = new LifePrior(model, car, Day, Day.AddYears(-1));
        Modes = [.. model.Components.Where(c => !c.Instrument && !absent.Contains(c.Id)).SelectMany(c => c.Modes.Select((_, i) => (c, i)))];
    }

    public FaultModel Model { get; }

    public IReadOnlyList<(Component Part, int Mode)> Modes { get; }

    /// <summary>P(it is there on a car in use that ran well a year ago), noticed or not: what inspections count.</summary>
    public double Present(Component part, int mode) => _aYearLater.Of(part)[mode + 1];

    /// <summary>P(it came up within the last year), without what went on unnoticed: what brings a car to a workshop.</summary>
    public double Noticed(Component part, int mode) => Math.Max(0, Present(part, mode) - _onTheDay.Of(part)[mode + 1]);

    /// <summary>The same, and an event that immobilises the car shows: what motoring clubs count.</summary>
    public double Breakdown(Component part, int mode) => Noticed(part, mode) * (1 - _drives.Of(part)[mode]);
}
