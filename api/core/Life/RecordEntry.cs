using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>One dated entry of the record as it bears on one component.</summary>
/// <param name="Within">Where the day is half known.</param>
internal sealed record RecordEntry(
    string Id, DateOnly Day, DateTimeOffset Recorded, bool Fits, Action<PartBelief, Exposure, double> Change, DaySpan? Within = null)
{
    /// <summary>How much of "something was done, nobody knows what" is taken for a part fitted (judgement); the rest changes nothing.</summary>
    private const double UnknownFits = 0.5;

    /// <summary>Stands for "the car ran well on its last good day" where an entry's id is asked for.</summary>
    public const string RanWell = "ran-well";

    public void Apply(PartBelief belief, Exposure at, double kmPerYear) => Change(belief, at, kmPerYear);

    /// <summary>The entries that bear on a component, by day, then in the order in which they were recorded.</summary>
    public static IEnumerable<RecordEntry> Of(FaultModel model, CarRecord car, Component component) =>
        car.Work.Where(w => Covers(model, w, component)).Select(w => FromWork(model, w, component))
            .Concat(car.Incidents.Where(i => component.Modes.Any(m => m.Incidents.ContainsKey(i.Kind))).Select(i => FromIncident(i, component)))
            .Concat(car.Findings.Select(f => FromFinding(model, f, component)).OfType<RecordEntry>())
            .Concat(car.Carried.Where(c => c.Component == component.Id).Select(FromClosing))
            .OrderBy(e => e.Day).ThenBy(e => e.Recorded);

    /// <summary>The work names the component, what it was a part of by an earlier revision's id, or something that includes it.</summary>
    public static bool Covers(FaultModel model, WorkFact work, Component component) =>
        work.Components.Contains(component.Id) || work.Components.Any(component.Formerly.Contains)
        || model.Components.Any(c => c.Includes.Contains(component.Id) && work.Components.Contains(c.Id) && work.Action is WorkAction.Fitted or WorkAction.Rebuilt);

    /// <summary>How surely the work was done, by how we know; of unknown work how surely a part was fitted.</summary>
    public static double Sureness(FaultModel model, WorkFact work) => (work.Action == WorkAction.Unknown ? UnknownFits : 1) * work.Known switch
    {
        Known.Told => model.Told.Told,
        Known.Invoice => model.Told.Invoice,
        _ => 1,
    };

    /// <summary>What a used part has behind it: the age stated, else half of what the car has.</summary>
    public static Exposure AgeOf(WorkFact work, Exposure at, double kmPerYear)
    {
        if (work.Quality != PartQuality.Used)
        {
            return default;
        }

        return work.PartAgeYears is double years ? new Exposure(years, years * kmPerYear, 0) : new Exposure(at.UsedYears / 2, at.Km / 2, at.ParkedYears / 2);
    }

    /// <summary>Success of an action per mode, weighted by how surely it was done.</summary>
    public static double[] Success(Component component, WorkAction action, double sure) => [.. component.Modes.Select(m => sure * m.Cures(Name(action)))];

    /// <summary>The fault model's word for work that leaves the piece on the car.</summary>
    public static string Name(WorkAction action) => action == WorkAction.Cleaned ? "clean" : "adjust";

    private static RecordEntry FromWork(FaultModel model, WorkFact work, Component component)
    {
        double sure = Sureness(model, work);
        RecordEntry entry = new(work.Id, work.Day, work.RecordedAt, false, (_, _, _) => { }, work.Within);
        return work.Action switch
        {
            WorkAction.Fitted or WorkAction.Rebuilt or WorkAction.Unknown => entry with
            {
                Fits = work.Action != WorkAction.Unknown,
                Change = (belief, at, kmPerYear) =>
                    belief.Fit(work.Action == WorkAction.Rebuilt ? PartQuality.Rebuilt : work.Quality, AgeOf(work, at, kmPerYear), sure),
            },
            WorkAction.Cleaned or WorkAction.Adjusted => entry with { Change = (belief, _, _) => belief.PutRight(Success(component, work.Action, sure)) },
            _ when work.Found is { } look => entry with { Change = (belief, _, _) => Observe(belief, component, look) },
            _ => entry,
        };
    }

    private static RecordEntry FromIncident(IncidentFact incident, Component component)
    {
        double[] odds = [.. component.Modes.Select(m => m.Incidents.GetValueOrDefault(incident.Kind, 1))];
        return new(incident.Id, incident.Day, DateTimeOffset.MinValue, false, (belief, _, _) => belief.Observe(1, odds), incident.Within);
    }

    private static RecordEntry FromClosing(CarriedBelief carried) =>
        new(carried.ComplaintId, carried.Day, DateTimeOffset.MaxValue, false, (belief, _, _) => belief.Observe(carried.Likelihood[0], carried.Likelihood[1..]));

    private static RecordEntry? FromFinding(FaultModel model, Observation finding, Component component)
    {
        if (finding.Component is not null)
        {
            return finding.Component != component.Id ? null
                : new(finding.Id, finding.Day, finding.RecordedAt, false, (belief, _, _) => Observe(belief, component, PartLikelihood.LookOf(finding)));
        }

        double[]? likelihood = PartLikelihood.OfCheck(model, finding, component);
        return likelihood is null ? null : new(finding.Id, finding.Day, finding.RecordedAt, false, (belief, _, _) => belief.Observe(likelihood[0], likelihood[1..]));
    }

    private static void Observe(PartBelief belief, Component component, LookResult look)
    {
        double[] likelihood = PartLikelihood.Seen(component, look, belief.Marginal());
        belief.Observe(likelihood[0], likelihood[1..]);
    }
}
