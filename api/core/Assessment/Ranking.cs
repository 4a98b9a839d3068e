using System.Collections.Concurrent;

namespace FuelHistory.Core.Assessment;

/// <summary>P(bad), what putting a part right would relieve, and whether it would by itself end the complaint (MODEL.md 8).</summary>
internal sealed class Ranking
{
    /// <summary>A part less likely to be bad than this is not asked about: it cannot relieve more.</summary>
    private const double NotAsked = 0.005;

    /// <summary>Parts by which it is seen whether the networks are too large.</summary>
    private const int Probes = 4;

    private const int MuchLarger = 5;

    /// <summary>So many parts, those that the items raised most, are asked one by one; a part behind them that would be among the first
    /// <see cref="Leaders"/> is asked after all.</summary>
    private const int AskedParts = 12, Leaders = 8;

    /// <summary>Table entries that one question about a repair may need; beyond it only one item is looked at (<see cref="Focus"/>).</summary>
    public const long Allowed = 200_000;

    private readonly Situation _situation;
    private readonly long _allowed, _allowedNarrow;
    private readonly Lazy<double[][][]> _statesIn;

    /// <summary>Per item: the likeliest parts can be asked about in the whole situation.</summary>
    private readonly Lazy<bool>[] _whole;
    private readonly Lazy<Place>[] _narrow, _narrowest;

    /// <summary>Per item: the parts by all findings but its own; null where those are impossible or their network is too large.</summary>
    private readonly Lazy<double[][]?>[] _before;
    private readonly ConcurrentDictionary<(string Repair, int Item), double> _known = [];
    private readonly ConcurrentDictionary<string, double> _tried = [];

    /// <summary>Parts that the rise of their odds stands for.</summary>
    private readonly HashSet<int> _byRise = [];
    private volatile bool _approximate;

    private Ranking(Situation situation, double logWeight, double[][] states, long allowed, long narrow)
    {
        (_situation, LogWeight, States, _allowed, _allowedNarrow) = (situation, logWeight, states, allowed, narrow);
        _statesIn = new(() => situation.StatesIn([.. Enumerable.Range(0, situation.Worlds.Stretches.Length)], new Omitted())!);
        _whole = [.. Enumerable.Range(0, situation.Items.Count).Select(i => new Lazy<bool>(() => Likeliest(i).All(r => situation.Fits(allowed, r))))];
        _narrow = [.. Enumerable.Range(0, situation.Items.Count).Select(i => new Lazy<Place>(() => Narrow(i, n => Likeliest(i).All(r => n.Fits(narrow, r)))))];
        _before = [.. Enumerable.Range(0, situation.Items.Count).Select(i => new Lazy<double[][]?>(() => Before(i)))];
        _narrowest = [.. Enumerable.Range(0, situation.Items.Count).Select(i => new Lazy<Place>(() => Narrow(i, _ => false)))];
    }

    public double LogWeight { get; }

    /// <summary>Per part: P(ok), P(mode).</summary>
    public double[][] States { get; }

    public IReadOnlyList<Item> Items => _situation.Items;

    public double Bad(int part) => 1 - States[part][0];

    /// <summary>Some of what was asked until now is not exact, because the networks would have been too large.</summary>
    public bool Approximate => _approximate;

    /// <summary>Null where the findings are impossible together.</summary>
    public static Ranking? Of(Situation situation, long allowed = Allowed, long narrow = Allowed) =>
        situation.States(out double log) is double[][] states ? new Ranking(situation, log, states, allowed, narrow) : null;

    /// <summary>The situation in which a repair is asked about, as to one item.</summary>
    public Situation SituationOf(int item, Repair repair)
    {
        if (_whole[item].Value && _situation.Fits(_allowed, new Relief(repair, [Items[item]])))
        {
            return _situation;
        }

        _approximate = true;
        return _narrow[item].Value.Situation;
    }

    /// <summary>P(the item was wrong at its last bad finding, and is right in the stretch to come with these parts ok and all else as it is).</summary>
    public double Relieved(int item, Repair repair)
    {
        if (repair.Parts.Length == 1 && !repair.Everything && !Asked(repair.Parts[0], item))
        {
            repair = Repair.Nothing;
        }

        if (ByRise(repair))
        {
            return Math.Min(1, Relieved(item, Repair.Nothing) + Rise(repair.Parts[0], _before[item].Value!));
        }

        // nothing was done since: both stretches are the same
        bool same = repair is { Everything: false, Parts.Length: 0 } && Items[item].World == _situation.Worlds.Stretches.Length - 1;
        return same ? 0 : ByTrial(repair, item) ?? Known(repair, item, [Items[item]]);
    }

    /// <summary>By the trial of the part put right, which is not in the network any more: it showed what the events do then.</summary>
    private double? ByTrial(Repair repair, int item) => Most(Tried<SupposedEvidence>(repair, item, t => t.World, t => t.Tried, t => t.Events), t => Bad(repair.Parts[0]) * t.Relieves);

    /// <summary>By the same trial where the network for the question would be too large with its world.</summary>
    private double? ByTrialsWorld(Repair repair, int item) => Most(
        Tried<Hypothetical>(repair, item, t => t.World, t => t.Tried, t => t.Events.Select(e => e.Event.Index)),
        t => Math.Min(Bad(repair.Parts[0]), _tried.GetOrAdd(t.Id, _ => _situation.AllRight(t))));

    private static double? Most<T>(IEnumerable<T> trials, Func<T, double> relieves) => trials.Select(t => (double?)relieves(t)).Max();

    /// <summary>Trials of the one part that is put right, on the item's event, in the stretch of now.</summary>
    private IEnumerable<T> Tried<T>(Repair repair, int item, Func<T, int> world, Func<T, int> part, Func<T, IEnumerable<int>> events)
    {
        int now = _situation.Worlds.Stretches.Length - 1;
        return repair is { Everything: false, Parts: [int one] } && Items[item] is EventItem asked && asked.World == now
            ? _situation.Evidence.OfType<T>().Where(t => part(t) == one && world(t) == now && events(t).Contains(asked.Source.Index))
            : [];
    }

    /// <summary>P(all items relieved).</summary>
    public double All(Repair repair)
    {
        if (Items.Count == 0)
        {
            return NothingLeft;
        }

        if (Items.Count == 1)
        {
            return Relieved(0, repair);
        }

        bool rise = ByRise(repair);
        if (!rise && Array.TrueForAll(_whole, w => w.Value) && Known(repair, -1, Items) is double known and >= 0)
        {
            return known;
        }

        _approximate |= !rise;

        // item by item: where the one is relieved that is relieved most often, the others are with the share that they have of it
        double[] each = [.. Enumerable.Range(0, Items.Count).Select(i => Relieved(i, repair))];
        double most = each.Max();
        return most > 0 ? each.Aggregate(most, (all, r) => all * r / most) : 0;
    }

    public Relieved Both(Repair repair) => new(All(repair), Share(repair));

    /// <summary>What putting the part right would end is by the rise of its odds, and rough (MODEL.md 8).</summary>
    public bool ByRise(int part) => _byRise.Contains(part);

    private bool ByRise(Repair repair) => repair is { Everything: false, Parts: [int one] } && ByRise(one);

    /// <summary>Asks all that the ranking needs, on all processors.</summary>
    /// <exception cref="TooLargeException">Some of it is beyond the bound.</exception>
    public void Prepare()
    {
        int[] parts = [.. _situation.Index.Parts.Where(p => !p.Source.Instrument && Enumerable.Range(0, Items.Count).Any(i => Asked(p.Index, i))).Select(p => p.Index)];

        // 1. those behind the ones that all items together raised most
        if (parts.Length > AskedParts && Enumerable.Range(0, Items.Count).All(i => _before[i].Value is not null)
            && _situation.States(new Omitted(Items.SelectMany(i => i.Findings))) is double[][] before)
        {
            _byRise.UnionWith(parts.OrderByDescending(p => Rise(p, before)).Skip(AskedParts).Where(p => !Tried(p)));
        }

        // 2. the others one by one, and with them who would stand among the leaders
        int late;
        do
        {
            (int Part, int Item)[] pairs = [.. Enumerable.Range(0, Items.Count).SelectMany(i => parts.Where(p => Asked(p, i) && !ByRise(p)).Select(p => (p, i)))];
            Each.Of(pairs, pair => Relieved(pair.Item, new Repair(false, pair.Part)));
            int[] leading = [.. parts.OrderByDescending(Explains).Take(Leaders)];
            late = _byRise.RemoveWhere(leading.Contains);
        }
        while (late > 0);
    }

    /// <summary>Somebody tried the part, and wants to know exactly what came of it.</summary>
    private bool Tried(int part) => _situation.Evidence.Any(e => (e as Hypothetical)?.Tried == part || (e as SupposedEvidence)?.Tried == part);

    /// <summary>Expected share of the items relieved, by weight.</summary>
    public double Share(Repair repair) => Items.Count == 0 ? NothingLeft : Items.Select((item, i) => item.Weight * Relieved(i, repair)).Sum();

    /// <summary>Of one item: what putting the part right, and nothing else, adds.</summary>
    public double Explains(int part, int item) => Math.Max(0, Relieved(item, new Repair(false, part)) - Relieved(item, Repair.Nothing));

    /// <summary>Weighted over the items, 0..1.</summary>
    public double Explains(int part) => Items.Select((item, i) => item.Weight * Explains(part, i)).Sum();

    /// <summary>P(all items right with this part put right), less the same with nothing done.</summary>
    public double FixesAlone(int part)
    {
        // it ends the whole complaint at most as often as the item that it ends least often
        var repair = new Repair(false, part);
        return Items.Count > 0 && Enumerable.Range(0, Items.Count).All(i => Asked(part, i) && Relieved(i, repair) >= NotAsked)
            ? Math.Max(0, All(repair) - All(Repair.Nothing)) : 0;
    }

    /// <summary>P(the complaint is over by what was done since the last bad findings).</summary>
    public double Resolved => All(Repair.Nothing);

    /// <summary>Nothing stands that was reported or failed: resolved where work was done, else nothing was told yet.</summary>
    private double NothingLeft => _situation.Worlds.Stretches.Length > 1 ? 1 : 0;

    /// <summary>Some item hangs on the part.</summary>
    public bool Reaches(int part) => Items.Any(i => i.Reach[part]);

    /// <summary>The part may relieve the item: it hangs on it, and the part may be bad.</summary>
    private bool Asked(int part, int item) => Items[item].Reach[part] && Bad(part) >= NotAsked;

    /// <returns>Below 0 where the network for all items together would be too large.</returns>
    private double Known(Repair repair, int item, IReadOnlyList<Item> items)
    {
        if (!_known.TryGetValue((repair.Key, item), out double p))
        {
            _known[(repair.Key, item)] = p = Asked(new Relief(repair, items), item);
        }

        return p;
    }

    private double Asked(Relief relief, int item)
    {
        if ((item < 0 || _whole[item].Value) && _situation.LogWeightWithin(_allowed, relief) is double whole)
        {
            return Math.Clamp(Math.Exp(whole - LogWeight), 0, 1);
        }

        if (item < 0)
        {
            return -1;
        }

        _approximate = true;
        if (ByTrialsWorld(relief.Repair, item) is double shown)
        {
            return shown;
        }

        // of a part that hangs on more than the likeliest ones even that may be too large
        try
        {
            Place place = _narrow[item].Value;
            double? narrow = place.Situation.LogWeightWithin(MuchLarger * _allowedNarrow, relief);
            place = narrow is null ? _narrowest[item].Value : place;
            return Math.Clamp(Math.Exp((narrow ?? place.Situation.LogWeight(relief)) - place.LogWeight), 0, 1);
        }
        catch (TooLargeException)
        {
            return RiseOf(relief.Repair, item);
        }
    }

    /// <summary>Without a stretch to come in the network: of a part that depends on nothing else, P(bad, and the item would be right without it) is
    /// (P(bad | all) - P(bad | all but the item)) / P(ok | all but the item); several parts add up.</summary>
    private double RiseOf(Repair repair, int item)
    {
        if (repair.Everything || _before[item].Value is not double[][] before)
        {
            return repair.Everything ? 1 : 0;
        }

        return Math.Min(1, repair.Parts.Sum(p => Rise(p, before)));
    }

    private double Rise(int part, double[][] before) => before[part][0] > 0 ? Math.Clamp((before[part][0] - States[part][0]) / before[part][0], 0, Bad(part)) : 0;

    private double[][]? Before(int item)
    {
        try
        {
            return _situation.States(new Omitted(Items[item].Findings));
        }
        catch (TooLargeException)
        {
            return null;
        }
    }

    private Place Narrow(int item, Func<Situation, bool> fits) => Focus.Of(_situation, Items[item], _statesIn.Value, fits) ?? throw new TooLargeException();

    private IEnumerable<Relief> Likeliest(int item) => _situation.Index.Parts.Where(p => !p.Source.Instrument && Asked(p.Index, item))
        .OrderByDescending(p => Bad(p.Index)).Take(Probes).Select(p => new Relief(new Repair(false, p.Index), [Items[item]]));
}
