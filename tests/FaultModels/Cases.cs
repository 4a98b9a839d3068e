using System.Text.Json;
using System.Text.Json.Serialization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.FaultModels;

/// <summary>cases.json as records; its schema says what each member means.</summary>
internal sealed record CaseFile(string Schema, IReadOnlyList<HandCase> Cases, string About = "")
{
    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        PropertyNameCaseInsensitive = false,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    public static CaseFile Read(string path) => JsonSerializer.Deserialize<CaseFile>(File.ReadAllText(path), Strict)!;
}

internal sealed record HandCase(
    string Id, string About, string Source, CaseComplaint Complaint, CaseExpected Expect, CaseCar? Car = null, IReadOnlyList<CaseFinding>? Findings = null, string? KnownMiss = null);

internal sealed record CaseCar(int FirstUse, double Km, double LaidUpYears = 0, IReadOnlyList<CaseWork>? Work = null, IReadOnlyList<CaseIncident>? Incidents = null);

internal sealed record CaseWork(string Component, int DaysAgo, WorkAction Action = WorkAction.Fitted, Known Known = Known.DidIt, PartQuality Quality = PartQuality.New);

internal sealed record CaseIncident(string Kind, int DaysAgo);

internal sealed record CaseComplaint(IReadOnlyList<string> Present, IReadOnlyList<string>? Absent = null, bool Intermittent = false, int DaysAgo = 30);

internal sealed record CaseFinding(
    string? Check = null, string? Outcome = null, double? Value = null, double? Covariate = null, IReadOnlyList<double[]>? Points = null, string? Component = null, string? Mode = null, string? Trial = null, bool Sure = true);

internal sealed record CaseExpected(
    IReadOnlyList<string>? LeaderAmong = null, IReadOnlyList<string>? TopThree = null, IReadOnlyList<string>? Not = null, IReadOnlyList<string>? NextAmong = null);

/// <summary>A case in the terms of the core.</summary>
internal static class CaseInput
{
    private static readonly DateOnly Today = new(2024, 6, 1);

    private static readonly InstrumentFact Gauge = new("gauge", 10, 1.6, 0.02, null, null, new DateOnly(2023, 9, 1));

    public static AssessmentInput Of(HandCase hand, FaultModel model)
    {
        CaseCar car = hand.Car ?? new CaseCar(1981, 200_000);
        DateOnly since = Today.AddDays(-hand.Complaint.DaysAgo);
        return new AssessmentInput(
            new CarRecord
            {
                FirstUse = new DateOnly(car.FirstUse, 6, 1),
                Odometer = [new OdometerFix(since.AddDays(-10), car.Km)],
                LayUps = car.LaidUpYears > 0 ? [new LayUpSpan("l", since.AddDays((int)(-365.25 * car.LaidUpYears)), since)] : [],
                Work = [.. (car.Work ?? []).Select((w, i) => new WorkFact($"w{i}", Today.AddDays(-w.DaysAgo), w.Action, [w.Component], w.Known, w.Quality, At(i)))],
                Incidents = [.. (car.Incidents ?? []).Select((x, i) => new IncidentFact($"i{i}", Today.AddDays(-x.DaysAgo), x.Kind))],
                Instruments = [Gauge],
                Findings = [.. Seen(hand, model).Select((o, i) => o with { Id = $"f{i}", At = At(60 + i), RecordedAt = At(60 + i) })],
            },
            new ComplaintFact("c", since, false, hand.Complaint.Intermittent),
            Today);
    }

    private static DateTimeOffset At(int minutes) => new DateTimeOffset(Today, new TimeOnly(8, 0), TimeSpan.Zero).AddMinutes(minutes);

    private static IEnumerable<Observation> Seen(HandCase hand, FaultModel model)
    {
        Observation blank = new() { Id = "", ComplaintId = "c", At = default, RecordedAt = default, Day = Today, Session = "one" };
        return
        [
            .. hand.Complaint.Present.Select(s => blank with { Event = s, Outcome = "present" }),
            .. (hand.Complaint.Absent ?? []).Select(s => blank with { Event = s, Outcome = "absent" }),
            .. (hand.Findings ?? []).Select(f => blank with
            {
                Check = f.Check,
                Trial = model.Trials.Where(t => t.Id == f.Trial).Select(t => new TrialFact(t.Id, t.Kind, t.Component, PartQuality.New, null)).SingleOrDefault(),
                Component = f.Component,
                Mode = f.Mode,
                Outcome = f.Outcome,
                Sure = f.Sure,
                Value = f.Value,
                Points = [.. (f.Points ?? []).Select(p => new LeakPoint(p[0], p[1]))],
                Instrument = f.Value is null && f.Points is null ? null : Gauge.Id,
                Covariates = f.Covariate is { } c ? new Dictionary<string, double> { [model.Checks.Single(k => k.Id == f.Check).Covariate!.Id] = c } : new(),
            }),
        ];
    }
}
