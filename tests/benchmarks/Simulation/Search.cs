using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>What a search for the fault came to. Wrong: parts put right that were ok.</summary>
internal sealed record Outcome(double Cost, double Minutes, int Checks, int Wrong, bool Specialist);

/// <summary>One search on one simulated car by one rule, from the complaint to its end.</summary>
internal sealed class Search(CompiledModel model, Func<SimulatedCar> draw, IReadOnlyList<string> asked)
{
    private const int MostSteps = 25;
    private static readonly DateOnly Day = new(2025, 6, 1);
    private readonly SimulatedCar _car = draw();
    private readonly List<Observation> _findings = [];
    private readonly List<WorkFact> _work = [];
    private double _cost, _minutes;
    private int _checks, _wrong, _step;

    private FaultModel Source => model.Source;

    /// <summary>Assessments made on the way, with what came true: (P(bad), was bad) and (cure, cured) per look.</summary>
    public List<(double Forecast, bool Happened)> Bad { get; } = [];

    public List<(double Forecast, bool Happened)> Cured { get; } = [];

    private IEnumerable<Symptom> Present => Source.Symptoms.Where(s => asked.Contains(s.Id) && _car.Shows(s));

    /// <summary>Follows the advice: the check that pays, else the first repair of the plan, else the specialist.</summary>
    public Outcome ByAdvice()
    {
        string[] complaint = [.. Present.Select(s => s.Id)];
        AskSymptoms();
        while (_step < MostSteps)
        {
            if (Assess.Run(model, Input()) is not Answered answer)
            {
                break;
            }

            if (_step == 1)
            {
                Note(answer, complaint);
            }

            if (answer.NextChecks.FirstOrDefault(c => c.Pays) is CheckAdvice check)
            {
                Spend(check.Cost, check.Minutes);
                _checks++;
                _findings.Add(_car.Make(Source.Checks.Single(c => c.Id == check.Check), Blank(check.Check)));
            }
            else if (answer.Plan.Steps.Count > 0)
            {
                Repair(answer.Plan.Steps[0].Component, answer.Plan.Steps[0].Cost, answer.Plan.Steps[0].Minutes);
                if (!complaint.Any(c => _car.Shows(Source.Symptoms.Single(s => s.Id == c))))
                {
                    return End(false);
                }

                AskSymptoms();
            }
            else
            {
                break;
            }
        }

        return End(true);
    }

    /// <summary>Puts one part after the other right, in a fixed order, until the complaint is gone.</summary>
    public Outcome ByOrder(IEnumerable<(string Component, double Cost, double Minutes)> order)
    {
        string[] complaint = [.. Present.Select(s => s.Id)];
        foreach ((string component, double cost, double minutes) in order)
        {
            Repair(component, cost, minutes);
            if (!complaint.Any(c => _car.Shows(Source.Symptoms.Single(s => s.Id == c))))
            {
                return End(false);
            }
        }

        return End(true);
    }

    /// <summary>The fixed chart: each abnormal outcome's part is put right at once; at its end the specialist.</summary>
    public Outcome ByFlowChart(Func<string, (double Cost, double Minutes)> price)
    {
        string[] complaint = [.. Present.Select(s => s.Id)];
        var setups = new HashSet<string>();
        foreach ((Check check, Func<string, string?> points) in FlowChart.Of(Source))
        {
            double minutes = check.Minutes + (check.Setup is not null && setups.Add(check.Setup) ? check.SetupMinutes : 0);
            Spend(minutes * Source.Advice.RatePerMinute, minutes);
            _checks++;
            if (points(FlowChart.Word(check, _car.Make(check, Blank(check.Id)))) is string component)
            {
                (double cost, double labour) = price(component);
                Repair(component, cost, labour);
                if (!complaint.Any(c => _car.Shows(Source.Symptoms.Single(s => s.Id == c))))
                {
                    return End(false);
                }
            }
        }

        return End(true);
    }

    private void Note(Answered answer, string[] complaint)
    {
        foreach (RankedFault fault in answer.Ranking.Take(10))
        {
            string? was = _car.States.GetValueOrDefault(fault.Component);
            Bad.Add((fault.Bad, was is not null));
            _car.States[fault.Component] = null;
            Cured.Add((fault.Cure, !complaint.Any(c => _car.Shows(Source.Symptoms.Single(s => s.Id == c)))));
            _car.States[fault.Component] = was;
        }
    }

    private void Repair(string component, double cost, double minutes)
    {
        Spend(cost, minutes);
        _wrong += component != "elsewhere" && _car.States.GetValueOrDefault(component) is null ? 1 : 0;
        _car.Repair(component);
        _step++;
        _work.Add(new WorkFact($"w{_step}", Day, WorkAction.Fitted, [component], Known.DidIt, PartQuality.New, At(), At: At()));
    }

    private void AskSymptoms()
    {
        _step++;
        foreach (string id in asked)
        {
            _findings.Add(Blank(id) with { Symptom = id, Outcome = _car.Shows(Source.Symptoms.Single(s => s.Id == id)) ? "present" : "absent" });
        }
    }

    private Observation Blank(string what)
    {
        return new Observation { Id = $"{what} {_findings.Count}", ComplaintId = "c", At = At().AddSeconds(_findings.Count), Day = Day, RecordedAt = At(), Session = "day" };
    }

    private DateTimeOffset At() => new DateTimeOffset(2025, 6, 1, 6, 0, 0, TimeSpan.Zero).AddMinutes(_step * 10).AddSeconds(_findings.Count);

    private AssessmentInput Input() => new(
        new CarRecord { FirstUse = Scenario.FirstUse, Findings = [.. _findings], Work = [.. _work] },
        new ComplaintFact("c", Scenario.Since, false, false),
        Day);

    private void Spend(double cost, double minutes)
    {
        _cost += cost;
        _minutes += minutes;
    }

    private Outcome End(bool specialist) => new(_cost + (specialist ? Source.Advice.NoneCost : 0), _minutes, _checks, _wrong, specialist);
}
