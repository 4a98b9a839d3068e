using FuelHistory.Benchmarks.Simulation;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Benchmarks.Complaints;

/// <summary>A complaint of a car drawn from a fault model: 1 to 6 events, 0 to 12 findings of all kinds, 0 to 4 repairs. The same number is the
/// same complaint.</summary>
internal sealed class InventedComplaint
{
    private const int MostEvents = 6, MostFindings = 12, MostRepairs = 4, Faults = 2;

    private readonly FaultModel _model;
    private readonly CarLot _lot;
    private readonly Random _random;
    private readonly SimulatedCar _car;
    private readonly EventCell[] _told;
    private readonly List<Observation> _findings = [];
    private readonly List<WorkFact> _work = [];
    private int _minute;

    private InventedComplaint(CarLot lot, int number)
    {
        (_lot, _model, _random) = (lot, lot.Model, new Random(number));
        int events = 1 + (number % MostEvents);

        // 1. a car of which so many events show, given some faults
        int tried = 0;
        do
        {
            _car = lot.Draw((number * 10_000) + tried++, [.. Enumerable.Range(0, Faults).Select(_ => Fault())]);
            _told = [.. _model.Cells.Where(_car.Shows).GroupBy(c => c.Event ?? c.Id).Select(g => g.First())];
        }
        while (_told.Length < events);
        _random.Shuffle(_told);
        _told = _told[..events];

        // 2. findings and repairs as they come; the events are asked for at the beginning and after each repair
        bool[] repairs = [.. new bool[_random.Next(MostFindings + 1)], .. Enumerable.Repeat(true, number * 2 % (MostRepairs + 1))];
        _random.Shuffle(repairs);
        AskEvents();
        foreach (bool repair in repairs)
        {
            if (repair)
            {
                Repair();
                AskEvents();
            }
            else
            {
                Find();
            }
        }
    }

    public static AssessmentInput Of(CarLot lot, int number) => new InventedComplaint(lot, number).Input();

    private AssessmentInput Input() => new(
        new CarRecord
        {
            FirstUse = CarLot.FirstUse,
            Odometer = [new OdometerFix(CarLot.Day, 180_000)],
            Work = [.. Enumerable.Range(0, 3).Select(i => Work($"h{i}", AnyPart().Id, WorkAction.Fitted, CarLot.Since.AddDays(-400 * (i + 1)), null)), .. _work],
            Findings = [.. _findings],
        },
        new ComplaintFact("c", CarLot.Since, false, _random.Next(4) == 0),
        CarLot.Day);

    private (string, string) Fault()
    {
        Component component = AnyPart();
        return (component.Id, component.Modes[_random.Next(component.Modes.Count)].Id);
    }

    private Component AnyPart()
    {
        Component[] parts = [.. _model.Components.Where(c => !c.Instrument)];
        return parts[_random.Next(parts.Length)];
    }

    private void AskEvents()
    {
        foreach (EventCell cell in _told)
        {
            // some tell when, some do not
            bool open = _random.Next(3) == 0;
            _findings.Add(Blank() with
            {
                Event = cell.Event ?? cell.Id,
                When = open || cell.When is null ? [] : [cell.When],
                Then = open || cell.Then is null ? [] : [cell.Then],
                Outcome = _car.Shows(cell) ? "present" : "absent",
            });
        }
    }

    private void Find() => _findings.Add(_random.Next(10) switch
    {
        < 6 => _car.Make(_model.Checks[_random.Next(_model.Checks.Count)], Blank()),
        < 7 => Seen(AnyPart().Id),
        < 9 => Tried(),
        _ => Blank() with { Own = new OwnObservation(AnyPart().Id, null, _random.Next(2) == 0, Strength.Clearly) },
    });

    private Observation Seen(string component)
    {
        string? mode = _car.States[component];
        return Blank() with { Component = component, Mode = mode, How = mode is null ? Look.Tested : Look.Seen, Outcome = mode is null ? "good" : "bad" };
    }

    private Observation Tried()
    {
        EventCell[] showing = [.. _told.Where(_car.Shows)];
        Trial[] trials = [.. _model.Trials.Where(t => t.Component is not null && showing.Length > 0)];
        if (trials.Length == 0)
        {
            return Seen(AnyPart().Id);
        }

        Trial trial = trials[_random.Next(trials.Length)];
        int still = _car.With(trial.Component!, () => showing.Count(_car.Shows));
        string result = still == 0 ? "ended" : still < showing.Length ? "better" : "same";
        return Blank() with { Trial = new TrialFact(trial.Id, trial.Kind, trial.Component, PartQuality.New, null), Outcome = result };
    }

    private void Repair()
    {
        // one in two hits a part that is bad
        string[] bad = [.. _car.States.Where(s => s.Value is not null && s.Key != "elsewhere").Select(s => s.Key)];
        string part = bad.Length > 0 && _random.Next(2) == 0 ? bad[_random.Next(bad.Length)] : AnyPart().Id;
        _car.PutRight(part, "replace");
        DateTimeOffset at = Next();
        _work.Add(Work($"w{_work.Count}", part, WorkAction.Fitted, CarLot.Day, at));
    }

    private static WorkFact Work(string id, string part, WorkAction action, DateOnly day, DateTimeOffset? at) =>
        new(id, day, action, [part], Known.DidIt, PartQuality.New, at ?? new DateTimeOffset(day, default, TimeSpan.Zero), At: at);

    private Observation Blank()
    {
        DateTimeOffset at = Next();
        return new Observation { Id = $"f{_minute}", ComplaintId = "c", At = at, Day = CarLot.Day, RecordedAt = at, Session = $"day {_work.Count}" };
    }

    private DateTimeOffset Next() => new DateTimeOffset(CarLot.Day, default, TimeSpan.Zero).AddHours(6).AddMinutes(++_minute);
}
