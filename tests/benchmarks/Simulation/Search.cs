using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>What a search for the fault came to.</summary>
/// <param name="Cost">The specialist is paid for the share of the complaint that is left, as the advice counts it.</param>
/// <param name="WholeDay">The specialist is paid for the day, however much is left.</param>
/// <param name="Wrong">Parts put right that were ok.</param>
internal sealed record Outcome(double Cost, double WholeDay, double Minutes, int Checks, int Wrong, bool Specialist)
{
    /// <summary>The cheapest of several, by either way of paying the specialist.</summary>
    public static Outcome Least(IReadOnlyList<Outcome> all) => all.MinBy(o => o.Cost)! with { WholeDay = all.Min(o => o.WholeDay) };
}

/// <summary>One search on one simulated car, from the complaint to its end: what was seen, what was done, what it cost.</summary>
internal sealed class Search(CompiledModel model, SimulatedCar car, Told told)
{
    private readonly List<Observation> _findings = [];
    private readonly List<WorkFact> _work = [];
    private double _cost, _minutes;
    private int _checks, _wrong, _step;

    private FaultModel Source => model.Source;

    private IReadOnlyList<EventCell> _open = told.Present;

    /// <summary>Nothing of the complaint as it was told shows.</summary>
    public bool Gone => !told.Present.Any(car.Shows);

    /// <summary>Nothing shows of what showed when it was last asked for: what the assessment calls the complaint gone.</summary>
    public bool OpenGone => !_open.Any(car.Shows);

    public AssessmentInput Input => new(
        new CarRecord { FirstUse = CarLot.FirstUse, Findings = [.. _findings], Work = [.. _work] },
        new ComplaintFact("c", CarLot.Since, false, false, told.Main),
        CarLot.Day);

    /// <summary>The newest ranking needed nothing folded or left out.</summary>
    public bool Exact { get; private set; }

    /// <summary>P(bad) and what each part explains as they stand, without advice.</summary>
    public Ranking Rank() =>
        Folding.Within(Prepared.Of(model, Input).Situation, (smaller, dropped) =>
        {
            Exact = dropped.Count == 0;
            return AllAsked(smaller);
        }) ?? throw new InvalidOperationException("beyond the bound");

    /// <summary>With all that parts explain, so that it shows whether the situation fits the bound.</summary>
    private Ranking AllAsked(Situation situation)
    {
        Ranking ranking = Ranking.Of(situation) ?? throw new InvalidOperationException("a car drawn from the model cannot be impossible");
        foreach (PartIndex part in model.Index.Parts)
        {
            ranking.Explains(part.Index);
        }

        return ranking;
    }

    public void AskEvents()
    {
        _step++;
        EventCell[] asked = [.. Source.Cells.Where(c => told.Asked.Contains(c.Id))];
        _open = [.. asked.Where(car.Shows)];
        foreach (EventCell cell in asked)
        {
            _findings.Add(Blank(cell.Id) with
            {
                Event = cell.Event ?? cell.Id,
                When = cell.When is null ? [] : [cell.When],
                Then = cell.Then is null ? [] : [cell.Then],
                Outcome = _open.Contains(cell) ? "present" : "absent",
            });
        }
    }

    /// <summary>Cells that show now.</summary>
    public IReadOnlyList<EventCell> Open => _open;

    /// <summary>A sound part put in for a moment, or the part bypassed: what the open events then do.</summary>
    public void Try(Trial trial, double cost, double minutes)
    {
        Spend(cost, minutes);
        _checks++;
        int still = car.With(trial.Component!, () => _open.Count(car.Shows));
        string result = still == 0 ? "ended" : still < _open.Count ? "better" : "same";
        _findings.Add(Blank(trial.Id) with { Trial = new TrialFact(trial.Id, trial.Kind, trial.Component, PartQuality.New, null), Outcome = result });
    }

    public Observation Make(Check check, double cost = 0, double minutes = 0)
    {
        Spend(cost, minutes);
        _checks++;
        Observation made = car.Make(check, Blank(check.Id));
        _findings.Add(made);
        return made;
    }

    public void PutRight(string component, string action, double cost = 0, double minutes = 0)
    {
        Spend(cost, minutes);
        _wrong += car.States[component] is null ? 1 : 0;
        car.PutRight(component, action);
        _step++;
        WorkAction done = action switch { "clean" => WorkAction.Cleaned, "adjust" => WorkAction.Adjusted, _ => WorkAction.Fitted };
        _work.Add(new WorkFact($"w{_step}", CarLot.Day, done, [component], Known.DidIt, PartQuality.New, At(), At: At()));
    }

    /// <summary>Where not all is gone, the specialist has the rest.</summary>
    public Outcome End() =>
        new(_cost + (Source.Advice.NoneCost * told.Left(car)), _cost + (Gone ? 0 : Source.Advice.NoneCost), _minutes, _checks, _wrong, !Gone);

    private Observation Blank(string what) => new()
    {
        Id = $"{what} {_findings.Count}",
        ComplaintId = "c",
        At = At().AddSeconds(_findings.Count),
        Day = CarLot.Day,
        RecordedAt = At(),
        Session = "day",
    };

    private DateTimeOffset At() => new DateTimeOffset(2025, 6, 1, 6, 0, 0, TimeSpan.Zero).AddMinutes(_step * 10).AddSeconds(_findings.Count);

    private void Spend(double cost, double minutes)
    {
        _cost += cost;
        _minutes += minutes;
    }
}
