using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>One car with one complaint on the real fault model, entered step by step as a user would; every step is a new record.</summary>
internal sealed record RealCase
{
    public static readonly CompiledModel Compiled = new(ModelFile.Model);

    /// <summary>A gauge of 10 bar, class 1.6, checked last year.</summary>
    public static readonly InstrumentFact Gauge = new("gauge", 10, 1.6, 0.02, null, null, new DateOnly(2023, 5, 1));

    /// <summary>The day of the first findings.</summary>
    public static readonly DateOnly Day = new(2024, 6, 1);

    public CarRecord Car { get; init; } = new()
    {
        FirstUse = new DateOnly(1981, 6, 1),
        Odometer = [new OdometerFix(new DateOnly(2024, 4, 20), 210_000)],
        Instruments = [Gauge],
    };

    public ComplaintFact Complaint { get; init; } = new("c", Day.AddDays(-14), false, false);

    public CompiledModel Model { get; init; } = Compiled;

    /// <summary>Findings and work follow each other an hour apart.</summary>
    public DateTimeOffset Now { get; init; } = new(2024, 6, 1, 8, 0, 0, TimeSpan.Zero);

    private static readonly Observation Blank = new() { Id = "", At = default, Day = default, RecordedAt = default, Session = "" };

    private DateOnly Today => DateOnly.FromDateTime(Now.DateTime);

    public RealCase Present(params string[] events) => events.Aggregate(this, (c, s) => c.Add(Blank with { Event = s, Outcome = "present" }));

    public RealCase Absent(params string[] events) => events.Aggregate(this, (c, s) => c.Add(Blank with { Event = s, Outcome = "absent" }));

    /// <summary>Another way of telling an event: facets, and only or always.</summary>
    public RealCase Told(string name, string[] when, string outcome = "present", bool sure = true) =>
        Add(Blank with { Event = name, When = when, Outcome = outcome, Sure = sure });

    public RealCase Tried(string component, TrialResult result, bool? back = null, PartQuality standIn = PartQuality.New) => Add(Blank with
    {
        Trial = new TrialFact(null, TrialKind.Another, component, standIn, back),
        Outcome = result.ToString().ToLowerInvariant(),
    });

    public RealCase Saw(string check, string outcome, bool sure = true) =>
        Add(Blank with { Check = check, Outcome = outcome, Sure = sure });

    public RealCase Read(string check, double value, string instrument = "gauge", double? covariate = null) => Add(Blank with
    {
        Check = check,
        Value = value,
        Instrument = instrument,
        Covariates = covariate is double c ? new Dictionary<string, double> { [Model.Index.Check(check).Source.Covariate!.Id] = c } : new(),
    });

    public RealCase Watched(string check, params (double Minutes, double Bar)[] points) => Add(Blank with
    {
        Check = check,
        Instrument = "gauge",
        Points = [.. points.Select(p => new LeakPoint(p.Minutes, p.Bar))],
    });

    public RealCase Opened(string component, string outcome, string? mode = null) =>
        Add(Blank with { Component = component, Mode = mode, Outcome = outcome });

    /// <summary>Work done now.</summary>
    public RealCase Fitted(string component, PartQuality quality = PartQuality.New) => Work(component, Today, Known.DidIt, quality) with { Now = Now.AddHours(1) };

    /// <summary>Work of the past.</summary>
    public RealCase Work(string component, DateOnly day, Known known, PartQuality quality = PartQuality.New, WorkAction action = WorkAction.Fitted) => this with
    {
        Car = Car with
        {
            Work = [.. Car.Work, new WorkFact($"w{Car.Work.Count}", day, action, [component], known, quality, Now, At: day == Today ? Now : null)],
        },
    };

    /// <summary>The next day, a session of its own.</summary>
    public RealCase NextDay() => this with { Now = new DateTimeOffset(Now.Date.AddDays(1).AddHours(8), TimeSpan.Zero) };

    public RealCase Without(string finding) => this with { Car = Car with { Findings = [.. Car.Findings.Where(f => f.Id != finding)] } };

    public Answered Answer() => Assert.IsType<Answered>(Assess.Run(Model, Input()));

    public AdviceAnswered Advice() => Assert.IsType<AdviceAnswered>(Assess.Advise(Model, Input()));

    public AssessmentInput Input() => new(Car, Complaint, Today);

    /// <summary>The network without advice, for questions that need many of them.</summary>
    public Situation Situation()
    {
        Investigation investigation = Investigation.From(Model.Index, Input());
        var life = new FuelHistory.Core.Life.LifePrior(Model.Source, investigation.Past(), investigation.FirstDay, investigation.RanWell());
        Worlds worlds = Worlds.From(Model.Index, investigation, life);
        var evidence = new EvidenceList(Model.Index, investigation, null, life, worlds);
        return new Situation(Model.Index, Model.Networks, worlds, evidence.Items, evidence.Complaint, Complaint.Intermittent);
    }

    /// <summary>P(bad) of every part of the car, by id.</summary>
    public Dictionary<string, double> Bad()
    {
        double[][] states = Situation().States()!;
        return Model.Index.Parts.Where(p => !p.Source.Instrument).ToDictionary(p => p.Id, p => 1 - states[p.Index][0]);
    }

    private RealCase Add(Observation what) => this with
    {
        Now = Now.AddMinutes(5),
        Car = Car with
        {
            Findings = [.. Car.Findings, what with { Id = $"f{Car.Findings.Count}", ComplaintId = "c", At = Now, RecordedAt = Now, Day = Today, Session = $"{Today}" }],
        },
    };
}

internal static class AnsweredExtensions
{
    public static RankedFault Of(this Answered answer, string component) => answer.Ranking.Single(f => f.Component == component);
}
