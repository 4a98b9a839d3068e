using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>A random small fault model with a random investigation: up to four stretches, parts fitted and cleaned, findings of all kinds.</summary>
internal sealed partial class SmallCase
{
    private static readonly DateOnly Day = new(2024, 5, 1);
    private readonly Random _random;
    private readonly List<(Observation Finding, int Stretch)> _findings = [];

    public SmallCase(int seed, int stretches, bool intermittent)
    {
        _random = new Random(seed);
        Intermittent = intermittent;
        Model = RandomModel();
        foreach (Component c in Model.Components)
        {
            double bad = 0.05 + (0.4 * _random.NextDouble());
            Priors[c.Id] = [1 - bad, .. c.Modes.Select(_ => bad / c.Modes.Count)];
        }

        for (int s = 1; s < stretches; s++)
        {
            Component chosen = Model.Components[_random.Next(Model.Components.Count)];
            Repairs.Add(new() { [chosen.Id] = _random.Next(5) switch { < 2 => "fit", < 4 => "clean", _ => "tell" } });
        }

        for (int s = 0; s < stretches; s++)
        {
            AddFindings(s);
        }
    }

    public FaultModel Model { get; }

    public bool Intermittent { get; }

    public Dictionary<string, double[]> Priors { get; } = [];

    /// <summary>Between stretches: component to "fit", "clean" or "tell" (fitted, but only told).</summary>
    public List<Dictionary<string, string>> Repairs { get; } = [];

    public List<string> Sessions { get; } = [];

    /// <summary>Bad when fitted with d/2; the other half fails later.</summary>
    public double[] Fresh(Component component) => [1 - (Model.BadWhenFitted.New / 2), .. component.Modes.Select(_ => Model.BadWhenFitted.New / 2 / component.Modes.Count)];

    public int SessionOf(Observation finding) => Sessions.IndexOf(finding.Session);

    public double ActingProbability(int session)
    {
        Observation[] own = [.. _findings.Select(f => f.Finding).Where(f => f.Session == Sessions[session])];
        return !Intermittent || own.Any(f => (f.Event is not null && f.Outcome != "absent") || f.Showed == Showed.Yes) ? 1 : own.Any(f => f.Showed == Showed.No) ? 0.1 : 0.4;
    }

    /// <summary>Findings on an event, in the order in which they were made.</summary>
    public IEnumerable<(Observation Finding, int Stretch)> EventFindings(string name) => _findings.Where(f => f.Finding.Event == name);

    public IEnumerable<(Observation Finding, int Stretch)> CheckFindings() => _findings.Where(f => f.Finding.Check is not null || f.Finding.Component is not null);

    public IReadOnlyList<(Observation Finding, int Stretch)> Trials => [.. _findings.Where(f => f.Finding.Trial is not null)];

    public IReadOnlyList<(Observation Finding, int Stretch)> OwnFindings => [.. _findings.Where(f => f.Finding.Own is not null)];

    /// <summary>All findings, with their stretch, in the order in which they were made.</summary>
    public IReadOnlyList<(Observation Finding, int Stretch)> Findings => _findings;

    /// <summary>The event's cells, in the order of the model.</summary>
    public EventCell[] CellsOf(string name) => [.. Model.Cells.Where(c => (c.Event ?? c.Id) == name)];

    public static IReadOnlyList<string> Events { get; } = ["s0", "s1"];

    /// <summary>The model as the code has it: for the figures that are its own (the path of a tried part).</summary>
    public ModelIndex Index => Compiled.Index;

    private CompiledModel? _made;

    private CompiledModel Compiled => _made ??= new CompiledModel(Model);

    public (Situation Situation, EvidenceList Evidence) Build()
    {
        CompiledModel compiled = Compiled;
        var car = new CarRecord
        {
            FirstUse = new DateOnly(1980, 1, 1),
            Findings = [.. _findings.Select(f => f.Finding)],
            Work = [.. Repairs.Select((r, i) => new WorkFact($"w{i}", Day.AddDays(i), r.Values.Single() == "clean" ? WorkAction.Cleaned : WorkAction.Fitted,
                [r.Keys.Single()], r.Values.Single() == "tell" ? Known.Told : Known.DidIt, PartQuality.New, At(i, 20), At: At(i, 20)))],
        };
        var input = new AssessmentInput(car, new ComplaintFact("c", Day.AddDays(-10), false, Intermittent), Day.AddDays(30));
        Investigation investigation = Investigation.From(compiled.Index, input);
        var life = new LifePrior(Model, investigation.Past(), investigation.FirstDay, null);
        Worlds worlds = Worlds.From(compiled.Index, investigation, life, p => Priors[p.Id]);
        var evidence = new EvidenceList(compiled.Index, investigation, null, life);
        Assert.Equal(Repairs.Count + 1, investigation.Stretches);
        return (new Situation(compiled.Index, compiled.Networks, worlds, evidence.Items, evidence.Complaint, Intermittent), evidence);
    }

    private static DateTimeOffset At(int stretch, int hour) => new(2024, 5, 1 + stretch, hour, 0, 0, TimeSpan.Zero);

    private void AddFindings(int stretch)
    {
        string session = $"day {stretch}";
        Sessions.Add(session);
        Showed showed = (Showed)_random.Next(3);
        Observation Blank(string what) => new()
        {
            Id = $"{what} {stretch}",
            ComplaintId = "c",
            At = At(stretch, 10),
            Day = Day.AddDays(stretch),
            RecordedAt = At(stretch, 10).AddSeconds(_findings.Count),
            Session = session,
            Showed = showed,
            Sure = _random.Next(4) > 0,
        };
        foreach (string name in Events.Where(_ => _random.Next(4) > 0))
        {
            AddReports(Blank, name, stretch);
        }

        Check look = Model.Checks[0], jars = Model.Checks[1];
        _findings.Add((Blank("look") with { Check = look.Id, Outcome = _random.Next(2) == 0 ? "yes" : "no" }, stretch));
        if (_random.Next(2) == 0)
        {
            _findings.Add((Blank("jars") with { Check = jars.Id, Outcome = jars.Outcomes![_random.Next(3)].Id }, stretch));
        }

        if (_random.Next(3) == 0)
        {
            Component part = Model.Components[_random.Next(Model.Components.Count)];
            _findings.Add((Blank("seen") with { Component = part.Id, Mode = _random.Next(3) > 0 ? part.Modes[0].Id : null, Outcome = _random.Next(2) == 0 ? "bad" : "good", How = (Look)_random.Next(2) }, stretch));
        }

        AddTrial(Blank, stretch);
        AddOwn(Blank, stretch);
    }

    /// <summary>An event told in one way, or a wide and a narrow one together.</summary>
    private void AddReports(Func<string, Observation> blank, string name, int stretch)
    {
        bool cells = name == "s0";
        string outcome = _random.Next(5) switch { 0 or 1 => "present", 2 or 3 => "absent", _ => cells ? "only" : "present" };
        string[] when = cells && (outcome == "only" || _random.Next(2) == 0) ? [_random.Next(2) == 0 ? "cold" : "hot"] : [];
        if (cells && outcome == "present" && when.Length > 0 && _random.Next(3) == 0)
        {
            _findings.Add((blank($"{name} wide") with { Event = name, Outcome = outcome }, stretch));
        }

        if (cells && outcome == "present" && when.Length == 0 && _random.Next(3) == 0)
        {
            outcome = "always";
        }

        _findings.Add((blank(name) with { Event = name, When = when, Outcome = outcome }, stretch));
    }

    private void AddTrial(Func<string, Observation> blank, int stretch)
    {
        if (Trials.Count > 0 || _random.Next(3) > 0 || !_findings.Any(f => f.Finding.Event is not null && f.Finding.Outcome != "absent"))
        {
            return;
        }

        TrialKind kind = _random.Next(4) switch { 0 => TrialKind.Another, 1 => TrialKind.Touched, 2 => TrialKind.Another, _ => TrialKind.Unplugged };
        string[] results = ["ended", "better", "same", "worse"];
        string result = results[_random.Next(4)];
        bool? back = result == "ended" && _random.Next(2) == 0 ? _random.Next(2) == 0 : null;
        Component part = Model.Components[_random.Next(Model.Components.Count)];
        _findings.Add((blank("trial") with { Trial = new TrialFact(null, kind, part.Id, PartQuality.Used, back), Outcome = result }, stretch));
    }

    private void AddOwn(Func<string, Observation> blank, int stretch)
    {
        if (OwnFindings.Count > 0 || _random.Next(3) > 0)
        {
            return;
        }

        bool side = _random.Next(2) == 0;
        _findings.Add((blank("own") with
        {
            Own = new OwnObservation(side ? null : Model.Components[_random.Next(3)].Id, side ? "air" : null, _random.Next(2) == 0, (Strength)_random.Next(3)),
        }, stretch));
    }
}
