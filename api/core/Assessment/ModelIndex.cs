using System.Globalization;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>A cause as an index: a part (with a mode) or a condition.</summary>
internal readonly record struct CauseRef(int Part, int Mode, int Condition)
{
    public bool IsPart => Part >= 0;
}

/// <summary>All arrows from one part or one condition into one condition. Part: one arrow per mode, idle ones null.</summary>
internal sealed record EffectGroup(int Part, int Condition, Arrow?[] Arrows)
{
    public bool IsPart => Part >= 0;

    /// <summary>Some arrow steps both ways from one state.</summary>
    public bool BothWays { get; } = Array.Exists(Arrows, a => a?.BothWays ?? false);

    /// <summary>Some arrow steps in the direction of the sign.</summary>
    public bool Has(int sign) => sign > 0 ? _up : _down;

    private readonly bool _up = Array.Exists(Arrows, a => a?.Has(1) ?? false);
    private readonly bool _down = Array.Exists(Arrows, a => a?.Has(-1) ?? false);
}

/// <summary>All arrows from one part or one condition into an event's cells or a check: per state (mode, or level from min) a probability.</summary>
internal sealed record GateGroup(int Part, int Condition, double[] P)
{
    public bool IsPart => Part >= 0;
}

internal sealed record PartIndex(int Index, string Id, Component Source);

internal sealed record ConditionIndex(int Index, Condition Source, StepDistribution Background, EffectGroup[] Groups, int Instrument)
{
    public int Min => Source.Min;

    public int Max => Source.Max;

    public int Levels => Max - Min + 1;

    public bool OfInstrument => Instrument >= 0;

    /// <summary>Levels of the states of a sum of steps up, of a sum of steps down, and of their difference.</summary>
    public int[] Ups { get; } = [.. Enumerable.Range(0, Source.Max + 1)];

    public int[] Downs { get; } = [.. Enumerable.Range(0, 1 - Source.Min).Select(d => -d)];

    public int[] All { get; } = [.. Enumerable.Range(Source.Min, Source.Max - Source.Min + 1)];

    /// <summary>Over (steps up, steps down, level): 1 where the level is their difference.</summary>
    public double[] DifferenceTable { get; } =
        Tables.Fill([Source.Max + 1, 1 - Source.Min, Source.Max - Source.Min + 1], at => at[0] - at[1] - Source.Min == at[2] ? 1 : 0);

    /// <summary>The background as an arrow without a cause.</summary>
    public Arrow BackgroundArrow { get; } = new([Background]);
}

/// <summary>A fault model with names turned into numbers; conditions in an order in which causes come first.</summary>
internal sealed class ModelIndex
{
    /// <summary>Id of the component that stands for what the model does not cover.</summary>
    public const string Elsewhere = "elsewhere";

    private readonly Dictionary<string, int> _parts = [];
    private readonly Dictionary<string, int> _conditions = [];
    private readonly Dictionary<string, int> _events = [];
    private readonly Dictionary<string, CheckIndex> _checks;

    public ModelIndex(FaultModel model)
    {
        (Model, Shown) = (model, new ShownModes(model));
        Component[] components = [.. model.Components, ElsewhereComponent(model.Elsewhere)];
        Parts = [.. components.Select((c, i) => new PartIndex(i, c.Id, c))];
        foreach (PartIndex part in Parts)
        {
            _parts.Add(part.Id, part.Index);
        }

        Condition[] sorted = Sorted(model.Conditions);
        for (int i = 0; i < sorted.Length; i++)
        {
            _conditions.Add(sorted[i].Id, i);
        }

        Conditions = [.. sorted.Select(Index)];
        Events = [.. EventIndex.Of(this)];
        foreach (EventIndex source in Events)
        {
            _events.Add(source.Id, source.Index);
        }

        Checks = [.. model.Checks.Select(c => CheckIndex.From(this, c))];
        _checks = Checks.ToDictionary(c => c.Source.Id);
    }

    public FaultModel Model { get; }

    public PartIndex[] Parts { get; }

    /// <summary>Which checks show which mode.</summary>
    public ShownModes Shown { get; }

    public ConditionIndex[] Conditions { get; }

    public EventIndex[] Events { get; }

    public int Part(string id) => _parts[id];

    public bool HasPart(string id) => _parts.ContainsKey(id);

    public int Condition(string id) => _conditions[id];

    /// <summary>An event and a bit set of its cells, as told: by the event's id, or by the id of one cell (as earlier revisions had them).</summary>
    /// <returns>Null where the model has no such event, or no such cell of it.</returns>
    public (EventIndex Event, ulong Cells)? Told(string id, IReadOnlyCollection<string> when, IReadOnlyCollection<string> then) =>
        EventIndex.Told(this, id, when, then);

    public EventIndex? Event(string id) => _events.TryGetValue(id, out int index) ? Events[index] : null;

    public CheckIndex[] Checks { get; }

    public CheckIndex Check(string id) => _checks[id];

    private readonly System.Collections.Concurrent.ConcurrentDictionary<(int Part, int Mode), IReadOnlyDictionary<string, double>> _paths = [];
    private ModelMap? _map;

    /// <summary>P(one of these cells shows | this mode alone), without the cells' background: by the likeliest of the cells.</summary>
    public double Path(int part, int mode, EventIndex source, ulong cells)
    {
        PartIndex owner = Parts[part];
        if (owner.Id == Elsewhere)
        {
            return EventIndex.Each(cells).Max(c => Model.Elsewhere.Cells.GetValueOrDefault(source.Cells[c].Id, Model.Elsewhere.P));
        }

        IReadOnlyDictionary<string, double> shown = _paths.GetOrAdd((part, mode), key =>
            ModeTrace.Of(_map ??= new ModelMap(Model), $"{owner.Id}.{owner.Source.Modes[key.Mode].Id}").Cells);
        return EventIndex.Each(cells).Max(c => 1 - ((1 - shown[source.Cells[c].Id]) / (1 - source.Cells[c].Background)));
    }

    public CauseRef Resolve(string of)
    {
        int dot = of.IndexOf('.', StringComparison.Ordinal);
        if (dot < 0)
        {
            return new CauseRef(-1, -1, _conditions[of]);
        }

        int part = _parts[of[..dot]];
        string mode = of[(dot + 1)..];
        return new CauseRef(part, Parts[part].Source.Modes.ToList().FindIndex(m => m.Id == mode), -1);
    }

    /// <summary>Causes with probabilities gathered per part or condition.</summary>
    public GateGroup[] Gate(IEnumerable<Cause> causes) =>
        Grouped(causes, c => c.Of, (cause, reference, p) =>
        {
            if (reference.IsPart)
            {
                p[reference.Mode] = cause.P ?? 0;
            }
            else
            {
                FillLevels(reference.Condition, cause.At, (level, value) => p[level] = value);
            }
        }).Select(g => new GateGroup(g.Part, g.Condition, g.Values)).ToArray();

    /// <summary>Runs over the levels that a "level to value" table names; indexes count from the condition's lowest level.</summary>
    public void FillLevels<T>(int condition, IReadOnlyDictionary<string, T>? at, Action<int, T> set)
    {
        int min = Conditions[condition].Min;
        foreach ((string level, T value) in at ?? new Dictionary<string, T>())
        {
            set(int.Parse(level, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture) - min, value);
        }
    }

    private IEnumerable<(int Part, int Condition, double[] Values)> Grouped<T>(IEnumerable<T> causes, Func<T, string> of, Action<T, CauseRef, double[]> fill)
    {
        foreach (var group in causes.Select(c => (Cause: c, Ref: Resolve(of(c)))).GroupBy(c => (c.Ref.Part, c.Ref.Condition)))
        {
            int size = group.Key.Part >= 0 ? Parts[group.Key.Part].Source.Modes.Count : Conditions[group.Key.Condition].Levels;
            var values = new double[size];
            foreach ((T cause, CauseRef reference) in group)
            {
                fill(cause, reference, values);
            }

            yield return (group.Key.Part, group.Key.Condition, values);
        }
    }

    private ConditionIndex Index(Condition condition, int index)
    {
        EffectGroup[] groups = [.. condition.Effects.Select(e => (Effect: e, Ref: Resolve(e.Of))).GroupBy(e => (e.Ref.Part, e.Ref.Condition)).Select(g =>
        {
            if (g.Key.Part < 0)
            {
                return new EffectGroup(-1, g.Key.Condition, [LevelArrow(g.Key.Condition, g.Single().Effect)]);
            }

            var arrows = new Arrow?[Parts[g.Key.Part].Source.Modes.Count];
            foreach ((Effect effect, CauseRef reference) in g)
            {
                arrows[reference.Mode] = new Arrow([StepDistribution.Of(effect.Adds)]);
            }

            return new EffectGroup(g.Key.Part, -1, arrows);
        })];
        int instrument = groups.Where(g => g.IsPart && Parts[g.Part].Source.Instrument).Select(g => g.Part).DefaultIfEmpty(-1).First();
        return new ConditionIndex(index, condition, StepDistribution.Of(condition.Background), groups, instrument);
    }

    private Arrow LevelArrow(int condition, Effect effect)
    {
        Condition cause = Model.Conditions.First(c => _conditions[c.Id] == condition);
        return new Arrow([.. Enumerable.Range(cause.Min, cause.Max - cause.Min + 1).Select(level =>
            StepDistribution.Of(effect.At?.GetValueOrDefault(level.ToString(CultureInfo.InvariantCulture))))]);
    }

    private static Component ElsewhereComponent(Elsewhere e) => new()
    {
        Id = Elsewhere,
        Title = e.Title,
        Source = e.Source,
        Modes = [new Mode { Id = "present", Title = e.Title, Life = new LifeFigures { Shape = 1 }, Unnoticed = 0, Source = e.Source }],
    };

    private static Condition[] Sorted(IReadOnlyList<Condition> conditions)
    {
        var done = new List<Condition>();
        var names = conditions.ToDictionary(c => c.Id);
        var open = new HashSet<string>();
        foreach (Condition c in conditions)
        {
            Visit(c);
        }

        return [.. done];

        void Visit(Condition c)
        {
            if (done.Contains(c))
            {
                return;
            }

            if (!open.Add(c.Id))
            {
                throw new FaultModelException($"Condition {c.Id} is its own cause; take one of the effects of the loop out.");
            }

            foreach (Effect effect in c.Effects.Where(e => names.ContainsKey(e.Of)))
            {
                Visit(names[effect.Of]);
            }

            done.Add(c);
        }
    }
}
