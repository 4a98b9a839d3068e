using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.Life;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Validation;
using LimitPoint = FuelHistory.Core.FaultModels.LimitPoint;

namespace FuelHistory.Host.Facts;

/// <summary>Entries in the terms of the computation: days instead of half-known dates, each quantity in its own unit, no void
/// entries, nothing that happened after the day of the assessment.</summary>
internal sealed class RecordFacts(Car car, DateOnly asOf, IReadOnlyDictionary<string, DateTimeOffset> firstRecorded)
{
    public IReadOnlyList<T> Happened<T>(IReadOnlyList<T> entries, Func<T, EntryHead> head, Func<T, string> date) =>
        [.. entries.Where(e => head(e).VoidReason is null && RoughDate.Parse(date(e)).Earliest <= asOf)];

    /// <summary>The middle of what is known; of a year that is not over, no later than the day of the assessment.</summary>
    public DateOnly Day(string date)
    {
        var middle = RoughDate.Parse(date).Middle;
        return middle < asOf ? middle : asOf;
    }

    /// <summary>When the car was first used as far as is known, and in no case after the first thing that the record says of it.</summary>
    public DateOnly FirstUse(IEnumerable<string> dates) =>
        dates.Append(car.Vehicle.InUseSince ?? car.Vehicle.Year.TrimEnd('~')).Min(Day);

    /// <summary>True distance: what earlier clocks showed when they were changed is added. A figure below an earlier one (a work
    /// entry with a vague date) says nothing and is left out.</summary>
    public IReadOnlyList<OdometerFix> Odometer(IReadOnlyList<Odometer> clock, IReadOnlyList<Work> work)
    {
        var all = clock.Select(o => (o.Date, o.Reading, o.NewClock))
            .Concat(work.Where(w => w.Odometer is not null).Select(w => (w.Date, Reading: w.Odometer!, NewClock: (Measured?)null)))
            .OrderBy(o => RoughDate.Parse(o.Date)).ThenBy(o => o.NewClock is not null);
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
        var from = Day(l.From);
        DateOnly? to = l.To is null || RoughDate.Parse(l.To).Earliest > asOf ? null : Day(l.To);
        return new LayUpSpan(l.Entry.Id, from, to < from ? from : to);
    }

    public ComplaintFact Of(Complaint c) => new(c.Entry.Id, Day(c.Since), c.Always, c.Course == "intermittent", c.Main, c.Onset);

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
            _ => WorkAction.Inspected,
        },
        w.Components,
        w.Known switch { "did-it" => Known.DidIt, "seen" => Known.Seen, "invoice" => Known.Invoice, _ => Known.Told },
        Quality(w.Quality),
        firstRecorded[w.Entry.Id],
        w.PartAgeYears,
        w.At);

    public IncidentFact Of(Incident i) => new(i.Entry.Id, Day(i.Date), i.Kind);

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
            Session = f.Session ?? $"{f.At:yyyy-MM-dd}",
            Showed = f.Showed switch { "yes" => Showed.Yes, "no" => Showed.No, _ => Showed.Unknown },
            Event = f.Event,
            When = f.When ?? [],
            Then = f.Then ?? [],
            Trial = f.Trial is null ? null : Of(f.Trial),
            Own = f.Own is { } own ? Of(own) : null,
            Check = f.Check,
            Component = f.Component,
            Mode = f.Mode,
            Outcome = f.Outcome,
            Sure = f.Sure,
            Value = f.Reading is { } reading ? In(quantity!, reading) : null,
            Points = [.. (f.Points ?? []).Select(p => new LeakPoint(p.Minutes, In(quantity!, p.Pressure)))],
            Instrument = f.Instrument,
            Covariates = (f.Conditions ?? new Dictionary<string, Measured>()).ToDictionary(c => c.Key, c => In(Quantity.OfUnit(c.Value.Unit)!, c.Value)),
        };
    }

    /// <returns>Null where the model of the day does not know the trial: it then says nothing.</returns>
    private TrialFact? Of(TrialDone t)
    {
        var known = car.Model.Trials.FirstOrDefault(k => k.Id == t.Trial);
        if (t.Trial is not null && known is null)
        {
            return null;
        }

        var kind = known?.Kind ?? t.Do switch
        {
            "another" => TrialKind.Another,
            "bypass" => TrialKind.Bypassed,
            "unplug" => TrialKind.Unplugged,
            "touch" => TrialKind.Touched,
            _ => TrialKind.ExtraFuel,
        };
        bool? back = t.Back switch { "came-back" => true, "stayed-away" => false, _ => null };
        return new TrialFact(known?.Id, kind, t.Component, Quality(t.StandIn), back);
    }

    private static Core.Assessment.OwnObservation Of(Contracts.OwnObservation own) => new(
        own.Component,
        own.Side,
        own.Direction == "for",
        own.Strength switch { "slightly" => Strength.Slightly, "clearly" => Strength.Clearly, _ => Strength.Strongly });

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
            Width(quantity, i.Digits, i.Unit), i.LastChecked is null ? null : RoughDate.Parse(i.LastChecked).Middle);
    }

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
