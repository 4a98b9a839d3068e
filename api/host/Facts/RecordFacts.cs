using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.Life;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Validation;
using LimitPoint = FuelHistory.Core.FaultModels.LimitPoint;

namespace FuelHistory.Host.Facts;

/// <summary>Entries in the terms of the computation: days instead of half-known dates, each quantity in its own unit, no void
/// entries, nothing that happened after the day of the assessment.</summary>
/// <param name="firstUse">Where it is worked out already; half-known dates are cut there.</param>
internal sealed class RecordFacts(Car car, DateOnly asOf, IReadOnlyDictionary<string, DateTimeOffset> firstRecorded, DateOnly? firstUse = null)
{
    public RecordFacts UsedFrom(DateOnly first) => new(car, asOf, firstRecorded, first);

    public IReadOnlyList<T> Happened<T>(IReadOnlyList<T> entries, Func<T, EntryHead> head, Func<T, string> date) =>
        [.. entries.Where(e => head(e).VoidReason is null && RoughDate.Parse(date(e)).Earliest <= asOf)];

    /// <summary>The middle of what is known; of a year that is not over, no later than the day of the assessment. An open end is where the
    /// car was first used, or the day of the assessment.</summary>
    public DateOnly Day(string date)
    {
        var rough = RoughDate.Parse(date);
        var middle = rough.OpenBefore || rough.OpenAfter ? rough.Within(First, asOf).Middle : rough.Middle;
        return middle < asOf ? middle : asOf;
    }

    /// <summary>Between which days it was, as far as the car was there and the day of the assessment had come; null where the day is known.</summary>
    public DaySpan? Within(string date) => RoughDate.Parse(date) is { IsDay: false } rough && rough.Within(First, asOf) is { Days: > 1 } span ? span : null;

    /// <summary>When the car was first used as far as is known, and in no case after the first thing that the record says of it.</summary>
    public DateOnly FirstUse(IEnumerable<string> dates) =>
        dates.Select(AtTheLatest).Append(Day(InUseSince)).Min();

    private string InUseSince =>
        car.Vehicle.InUseSince is { } since && !RoughDate.Parse(since).IsUnknown ? since : car.Vehicle.Year.TrimEnd('~');

    // "before 1990" says that the car was there by then, not since when
    private DateOnly AtTheLatest(string date) =>
        RoughDate.Parse(date) is { OpenBefore: true } open ? open.Within(First, asOf).To : Day(date);

    private DateOnly First => firstUse ?? BuildYear.Earliest(car.Vehicle.Year) ?? new DateOnly(RoughDate.FirstYear, 1, 1);

    /// <summary>True distance: what earlier clocks showed when they were changed is added. A figure below an earlier one (a work
    /// entry with a vague date) says nothing and is left out, and so does one of which nobody knows when it was read.</summary>
    public IReadOnlyList<OdometerFix> Odometer(IReadOnlyList<Odometer> clock, IReadOnlyList<Work> work)
    {
        var all = clock.Select(o => (o.Date, o.Reading, o.NewClock))
            .Concat(work.Where(w => w.Odometer is not null).Select(w => (w.Date, Reading: w.Odometer!, NewClock: (Measured?)null)))
            .Where(o => !RoughDate.Parse(o.Date).IsUnknown)
            .OrderBy(o => Day(o.Date)).ThenBy(o => RoughDate.Parse(o.Date)).ThenBy(o => o.NewClock is not null);
        List<OdometerFix> fixes = [];
        double before = 0;
        foreach (var (date, reading, newClock) in all)
        {
            var km = before + In(Quantity.Distance, reading);
            if (fixes.Count == 0 || km >= fixes[^1].Km)
            {
                fixes.Add(new OdometerFix(Day(date), km));
            }

            before = newClock is null ? before : km - In(Quantity.Distance, newClock);
        }

        return fixes;
    }

    public LayUpSpan Span(LayUp l)
    {
        // 1. between which days it began and ended: not before the one, not after the other
        RoughDate start = RoughDate.Parse(l.From);
        RoughDate? end = l.To is null || RoughDate.Parse(l.To).Earliest > asOf ? null : RoughDate.Parse(l.To);
        DaySpan within = start.Within(First, end?.Within(First, asOf).To ?? asOf);
        DaySpan? until = end?.Within(within.From, asOf);

        // 2. the middle days, and the spans where they are long enough to matter
        DateOnly from = start.OpenBefore || start.OpenAfter ? within.Middle : Day(l.From);
        DateOnly? to = end is null ? null : end.OpenBefore || end.OpenAfter ? until!.Value.Middle : Day(l.To!);
        return new LayUpSpan(l.Entry.Id, from, to < from ? from : to, Long(within), until is { } some ? Long(some) : null);
    }

    private static DaySpan? Long(DaySpan span) => span.IsLong ? span : null;

    /// <summary>Of a complaint that was there before anybody noted when, no day is known on which the car ran well.</summary>
    public ComplaintFact Of(Complaint c)
    {
        var since = RoughDate.Parse(c.Since);
        DateOnly opened = Earlier(DateOnly.FromDateTime(c.OpenedAt.DateTime));
        DateOnly day = since.OpenBefore ? since.Within(First, opened).To
            : since.OpenAfter ? since.Within(First, opened).Middle
            : Day(c.Since);
        return new(c.Entry.Id, day, c.Always || since.OpenBefore, c.Course == "intermittent", c.Main, c.Onset);
    }

    /// <summary>A complaint closed by the day of the assessment; null where it was still open then.</summary>
    public ClosedComplaint? ClosedBy(Complaint c)
    {
        if (c.Closed is not { } closed || DateOnly.FromDateTime(closed.At.DateTime) is var day && day > asOf)
        {
            return null;
        }

        return new ClosedComplaint(Of(c), day, [.. closed.Causes.Select(k => (k.Component, k.Mode))]);
    }

    public WorkFact Of(Work w) => new(
        w.Entry.Id,
        w.At is { } at ? Earlier(DateOnly.FromDateTime(at.DateTime)) : Day(w.Date),
        w.Action switch
        {
            "fitted" => WorkAction.Fitted,
            "rebuilt" => WorkAction.Rebuilt,
            "cleaned" => WorkAction.Cleaned,
            "adjusted" => WorkAction.Adjusted,
            "unknown" => WorkAction.Unknown,
            _ => WorkAction.Inspected,
        },
        w.Components,
        w.Known switch { "did-it" => Known.DidIt, "seen" => Known.Seen, "invoice" => Known.Invoice, _ => Known.Told },
        Quality(w.Quality),
        firstRecorded[w.Entry.Id],
        w.PartAgeYears,
        w.At,
        w.At is null ? Within(w.Date) : null,
        w.Outcome is null ? null : new LookResult(w.Outcome == "bad", w.Mode, LookOf(w.How), w.Sure));

    public IncidentFact Of(Incident i) => new(i.Entry.Id, Day(i.Date), i.Kind, Within(i.Date));

    private static Look LookOf(string? how) => how == "tested" ? Look.Tested : Look.Seen;

    public Observation Of(Finding f)
    {
        var check = f.Check is null ? null : car.Check(f.Check);
        var quantity = check is null ? null : ReadingRules.QuantityOf(check);
        return new Observation
        {
            Id = f.Entry.Id,
            ComplaintId = f.ComplaintId,
            At = f.At,
            Day = DateOnly.FromDateTime(f.At.DateTime),
            RecordedAt = firstRecorded[f.Entry.Id],
            Session = FindingConflicts.Session(f.Session, f.At),
            Showed = f.Showed switch { "yes" => Showed.Yes, "no" => Showed.No, _ => Showed.Unknown },
            Event = f.Event,
            When = f.When ?? [],
            Then = f.Then ?? [],
            Trial = f.Trial is { } trial && HasTrial(trial) ? Of(trial) : null,
            Own = f.Own is { } own ? Of(own) : null,
            Check = f.Check,
            Component = f.Component,
            Mode = f.Mode,
            How = LookOf(f.How),
            Outcome = f.Outcome,
            Sure = f.Sure,
            Value = f.Reading is { } reading ? In(quantity!, reading) : null,
            Points = [.. (f.Points ?? []).Select(p => new LeakPoint(p.Minutes, In(quantity!, p.Pressure)))],
            Instrument = f.Instrument,
            Covariates = (f.Conditions ?? new Dictionary<string, Measured>()).ToDictionary(c => c.Key, c => In(Quantity.OfUnit(c.Value.Unit)!, c.Value)),
        };
    }

    /// <summary>A trial that the model of the day does not have says nothing under it.</summary>
    private bool HasTrial(TrialDone trial) => trial.Trial is null || car.Model.Trials.Any(t => t.Id == trial.Trial);

    private static TrialFact Of(TrialDone trial) => new(
        trial.Trial,
        trial.Do switch
        {
            "bypass" => TrialKind.Bypassed,
            "unplug" => TrialKind.Unplugged,
            "touch" => TrialKind.Touched,
            "extra-fuel" => TrialKind.ExtraFuel,
            _ => TrialKind.Another,
        },
        trial.Component,
        Quality(trial.StandIn),
        trial.Back is { } back ? back == "came-back" : null);

    private static Core.Assessment.OwnObservation Of(Contracts.OwnObservation own) => new(
        own.Component,
        own.Side,
        own.Direction == "for",
        own.Strength switch { "slightly" => Strength.Slightly, "strongly" => Strength.Strongly, _ => Strength.Clearly });

    private static PartQuality Quality(string quality) => quality switch
    {
        "new" => PartQuality.New,
        "new-unbranded" => PartQuality.NewUnbranded,
        "rebuilt" => PartQuality.Rebuilt,
        "used" => PartQuality.Used,
        _ => PartQuality.Unknown,
    };

    /// <summary>Also of a void instrument: what was read with it stays read with it.</summary>
    public static InstrumentFact Of(Instrument i)
    {
        var quantity = Quantity.Find(i.Quantity)!;
        return new InstrumentFact(
            i.Entry.Id, Width(quantity, i.Span, i.Unit), i.ClassPercent, Width(quantity, i.Resolution, i.Unit), i.PercentOfReading,
            Width(quantity, i.Digits, i.Unit), i.LastChecked is null ? null : Checked(RoughDate.Parse(i.LastChecked)));
    }

    // "before 2020" is taken as then: an error is doubled after two years anyway
    private static DateOnly? Checked(RoughDate date) => date.IsUnknown ? null : date.Middle;

    public CarLimit Of(Limit l)
    {
        var quantity = ReadingRules.QuantityOf(car.Check(l.Check)!);
        double? Base(double? value) => value is { } v ? quantity.Convert(v, l.Unit, quantity.Units[0]) : null;
        return new CarLimit(
            l.Entry.Id, l.Check, Base(l.Low), Base(l.High), Base(l.From),
            [.. (l.Points ?? []).Select(p => new LimitPoint { Minutes = p.Minutes, At = p.At, Low = Base(p.Low), High = Base(p.High) })],
            LimitWords.Origin(l), l.Exact);
    }

    private DateOnly Earlier(DateOnly day) => day < asOf ? day : asOf;

    private static double In(Quantity quantity, Measured value) => quantity.Convert(value.Value, value.Unit, quantity.Units[0]);

    // a difference, so that a scale that starts elsewhere (degrees) does not shift it
    private static double? Width(Quantity quantity, double? width, string unit) =>
        width is { } w ? quantity.Convert(w, unit, quantity.Units[0]) - quantity.Convert(0, unit, quantity.Units[0]) : null;
}
