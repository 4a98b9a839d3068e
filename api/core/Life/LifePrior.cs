using System.Collections.Concurrent;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>How likely each component is to be bad before an investigation: its belief carried through the dated record
/// (MODEL.md 2). One instance serves one car and one day.</summary>
public sealed class LifePrior
{
    /// <summary>Years since its last check that are assumed of a gauge nobody remembers checking (judgement).</summary>
    private const double NeverCheckedYears = 10;

    private readonly FaultModel _model;
    private readonly CarRecord _car;
    private readonly DateOnly _day;
    private readonly GoodDay[] _good;
    private readonly UsageSteps _steps;

    /// <summary>Which entry says something about which component.</summary>
    private readonly Lazy<HashSet<(string Component, string Entry)>> _entries;

    /// <summary>By component and entry left out.</summary>
    private readonly ConcurrentDictionary<(string, string?), double[]> _known = [];

    /// <param name="day">The day for which the beliefs hold.</param>
    /// <param name="ranWell">The last day on which the car is known to have run well; null: none is known.</param>
    public LifePrior(FaultModel model, CarRecord car, DateOnly day, DateOnly? ranWell)
        : this(model, car, day, ranWell, null)
    {
    }

    /// <param name="drove">The last day that it drove, where it has not run well for nobody knows how long.</param>
    internal LifePrior(FaultModel model, CarRecord car, DateOnly day, DateOnly? ranWell, Drove? drove)
    {
        (_model, _car, _day) = (model, car, day);
        OnlyDrove = drove is not null;
        GoodDay?[] all = [ranWell is DateOnly well ? new GoodDay(well, Unnoticed) : null, drove is null ? null : new GoodDay(drove.Day, drove.Kept)];
        _good = [.. all.OfType<GoodDay>().Where(g => g.Day > car.FirstUse && g.Day <= day).OrderBy(g => g.Day)];
        _entries = new(() => [.. model.Components.SelectMany(c => RecordEntry.Of(model, car, c).Where(e => e.Day <= day).Select(e => (c.Id, e.Id)))]);
        _steps = new UsageSteps(new Usage(car, model.Use.KmPerYear, day), car.FirstUse, day);
    }

    /// <summary>The last good day, where one is known and falls into the car's life.</summary>
    public DateOnly? RanWell => _good.Length == 0 ? null : _good[0].Day;

    /// <summary>It is not known how long it has not run well, only that it drove.</summary>
    public bool OnlyDrove { get; }

    /// <summary>A day on which the car was well enough, and per component how likely it is so with each mode.</summary>
    private sealed record GoodDay(DateOnly Day, Func<Component, double[]> Kept);

    private static double[] Unnoticed(Component component) => [.. component.Modes.Select(m => m.Unnoticed)];

    /// <summary>Components with more half-known days than are gone through, so that each counts by its middle day.</summary>
    public IEnumerable<Component> ByMiddleDays() =>
        DatedEntries.TakesMiddles([.. _car.Work.Select(w => w.Within).Concat(_car.Incidents.Select(i => i.Within)).OfType<DaySpan>().Select(Blank)], _car.FirstUse, _day)
            ? _model.Components.Where(c => DatedEntries.TakesMiddles(Entries(c, null), _car.FirstUse, _day))
            : [];

    private static RecordEntry Blank(DaySpan within) => new("", within.Middle, default, false, (_, _, _) => { }, within);

    /// <summary>The entry says something about the component.</summary>
    public bool Bears(Component component, string entry) => _entries.Value.Contains((component.Id, entry));

    /// <summary>Years of use, km and parked years up to a day.</summary>
    public Exposure ExposureAt(DateOnly day) => _steps.At(day);

    /// <summary>Of several components at once, on all processors; each is computed by itself, so the numbers are the same.</summary>
    public double[][] Of(IReadOnlyList<Component> components)
    {
        var beliefs = new double[components.Count][];
        Parallel.For(0, components.Count, i => beliefs[i] = Of(components[i]));
        return beliefs;
    }

    /// <summary>P(ok), then P(mode) in the model's order.</summary>
    /// <param name="without">Id of a record entry that is left out, or "ran-well"; null: everything counts.</param>
    /// <returns>Not to be changed: asked for again it is the same array.</returns>
    public double[] Of(Component component, string? without = null) => _car.Absent.Contains(component.Id) ? Sound(component) :
        _known.TryGetValue((component.Id, without), out double[]? known) ? known : _known[(component.Id, without)] = Compute(component, without);

    /// <summary>Ok for certain: a part that the car does not have.</summary>
    private static double[] Sound(Component component) => [1, .. component.Modes.Select(_ => 0.0)];

    private double[] Compute(Component component, string? without)
    {
        Mixture all = new(component), withoutRanWell = new(component);
        foreach (IReadOnlyList<RecordEntry> dated in DatedEntries.Of(Entries(component, without), _car.FirstUse, _day))
        {
            Compute(component, dated, without, all, withoutRanWell);
        }

        if (_good.Length > 0 && without is null)
        {
            // the same without this day costs little now, and the reasons ask for it
            _known[(component.Id, RecordEntry.RanWell)] = withoutRanWell.Marginal;
        }

        return all.Marginal;
    }

    private List<RecordEntry> Entries(Component component, string? without) =>
        [.. RecordEntry.Of(_model, _car, component).Where(e => e.Day <= _day && e.Id != without)];

    private void Compute(Component component, IReadOnlyList<RecordEntry> entries, string? without, Mixture all, Mixture withoutRanWell)
    {
        DateOnly until = entries.Where(e => e.Fits).Select(e => e.Day).DefaultIfEmpty(RanWell ?? _day).Min();
        var belief = new PartBelief(component, _steps, q => BadWhenFitted(component, q), _car.Complete ? 0 : component.NotOriginal, until);
        if (_good.Length == 0 || without == RecordEntry.RanWell)
        {
            all.Add(Carry(belief, entries));
            return;
        }

        DateOnly from = DateOnly.MinValue;
        foreach (GoodDay good in _good)
        {
            Walk(belief, entries.Where(e => e.Day > from && e.Day <= good.Day));
            belief.AgeTo(good.Day);
            if (without is null && from == DateOnly.MinValue)
            {
                withoutRanWell.Add(Carry(belief.Copy(), entries.Where(e => e.Day > good.Day)));
            }

            belief.RanWell(_car.Complete, good.Kept(component));
            from = good.Day;
        }

        all.Add(Carry(belief, entries.Where(e => e.Day > from)));
    }

    private double[] Carry(PartBelief belief, IEnumerable<RecordEntry> entries)
    {
        Walk(belief, entries);
        belief.AgeTo(_day);
        return belief.Weighted();
    }

    /// <summary>Sum of the weighted states by each day that an entry may have had.</summary>
    private sealed class Mixture(Component component)
    {
        private readonly double[] _sum = new double[component.Modes.Count + 1];

        public double[] Marginal
        {
            get
            {
                double total = _sum.Sum();
                return [.. _sum.Select(p => p / total)];
            }
        }

        public void Add(double[] weighted)
        {
            for (int i = 0; i < _sum.Length; i++)
            {
                _sum[i] += weighted[i];
            }
        }
    }

    private void Walk(PartBelief belief, IEnumerable<RecordEntry> entries)
    {
        foreach (RecordEntry entry in entries)
        {
            belief.AgeTo(entry.Day);
            entry.Apply(belief, _steps.At(entry.Day), _model.Use.KmPerYear);
        }
    }

    /// <summary>A part just fitted during an investigation: bad with half of d, its infant failures still ahead.</summary>
    public double[] Fitted(Component component, WorkFact work) => _car.Absent.Contains(component.Id) ? Sound(component) :
        Marginal(component, FittedPart.On(component, work.Day, _steps.At(work.Day), RecordEntry.AgeOf(work, _steps.At(work.Day), _model.Use.KmPerYear),
            BadWhenFitted(component, work.Action == WorkAction.Rebuilt ? PartQuality.Rebuilt : work.Quality)));

    /// <summary>A gauge or meter, by the years since it was last checked.</summary>
    public static double[] Instrument(Component template, DateOnly? lastChecked, DateOnly day)
    {
        double years = lastChecked is DateOnly d ? Math.Max(0, day.DayNumber - d.DayNumber) / Usage.DaysPerYear : NeverCheckedYears;
        FittedPart part = FittedPart.Original(template, day);
        for (double t = 0.25; t < years + 0.25; t += 0.25)
        {
            part.Age(new Exposure(Math.Min(t, years), 0, 0), 0.25);
        }

        return Marginal(template, part);
    }

    /// <summary>d(quality) of MODEL.md 2: the component's own where it states one, else the model's.</summary>
    public double BadWhenFitted(Component component, PartQuality quality)
    {
        FittedQualityOverride? own = component.BadWhenFitted;
        FittedQuality all = _model.BadWhenFitted;
        return quality switch
        {
            PartQuality.New => own?.New ?? all.New,
            PartQuality.NewUnbranded => own?.NewUnbranded ?? all.NewUnbranded,
            PartQuality.Rebuilt => own?.Rebuilt ?? all.Rebuilt,
            PartQuality.Used => own?.Used ?? all.Used,
            _ => own?.Unknown ?? all.Unknown,
        };
    }

    private static double[] Marginal(Component component, FittedPart part) => [part.Ok, .. part.Bad.Take(component.Modes.Count)];
}
