using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>Prices every check not yet made: what its outcomes would save, and what they would tell (MODEL.md 8). One propagation with a
/// repair set's event entered gives that event's joint with every outcome of every check, so singles and pairs of the leaders price all
/// checks to depth two.</summary>
internal sealed class CheckAdvisor
{
    /// <summary>Savings under this share of the present cost count as nothing, as long as there is a repair to go on with.</summary>
    private const double WorthWhile = 0.03;

    /// <summary>A check that tells less than this about which single repair cures is not looked at for pairs of repairs.</summary>
    private const double Telling = 0.03;

    /// <summary>What is less likely than this is not looked at.</summary>
    private const double Never = 1e-12;

    private const int Leaders = 3;

    private readonly Situation _situation;
    private readonly Ranking _ranking;
    private readonly Costs _costs;
    private readonly int[] _candidates;
    private readonly Foreseen[] _checks;
    private readonly OutcomeBook _book;
    private readonly RepairOption[] _options;

    private CheckAdvisor(Situation situation, Ranking ranking, Costs costs, int[] candidates, Foreseen[] checks)
    {
        (_situation, _ranking, _costs, _candidates, _checks) = (situation, ranking, costs, candidates, checks);
        _book = new OutcomeBook(situation, checks);
        _options = [.. candidates.SelectMany(p => costs.Of(situation.Index.Parts[p], ranking.States[p].AsSpan(1), situation.Worlds.Now[p]))];
    }

    public static IReadOnlyList<CheckAdvice> Advise(Situation situation, Ranking ranking, EvidenceList list, Investigation investigation, Costs costs, int[] candidates)
    {
        HashSet<string> done = [.. investigation.Findings.Where((f, i) => f.Check is not null && investigation.StretchOf(i) == investigation.Stretches - 1).Select(f => f.Check!)];
        HashSet<string> hookedUp = [.. investigation.Findings.Where(f => f.Day == investigation.Input.AsOf && f.Check is not null)
            .Select(f => situation.Index.Check(f.Check!).Source.Setup).OfType<string>()];
        Foreseen[] checks = [.. situation.Index.Checks.Where(c => !done.Contains(c.Source.Id)).Select(c => Foresee(c, list, investigation)).OfType<Foreseen>()];
        var advisor = new CheckAdvisor(situation, ranking, costs, candidates, checks);
        return [.. advisor.Price(investigation.Input.ToolsAtHand, hookedUp)];
    }

    internal static Foreseen? Foresee(CheckIndex check, EvidenceList list, Investigation investigation)
    {
        InstrumentFact? instrument = list.LastUsed(check.Source.Quantity);
        if (check.Section is not null)
        {
            if (list.LimitOf(check) is not LeakDown.LeakLimit limit)
            {
                return null;
            }

            ReadingError watched = ReadingError.Of(instrument, limit.Low, check.Source.Repeat, limit.From * 2, investigation.Input.AsOf);
            return new Foreseen(check, null, watched, list.Leaks.Outcomes(watched, 0, limit));
        }

        if (check.Condition >= 0)
        {
            // a covariate not known yet: the middle of the limit's points stands for it
            return list.BandsOf(check, check.MiddleCovariate()) is BandEdges bands
                ? new Foreseen(check, bands, ReadingError.Of(instrument, bands.Edges[^2], check.Source.Repeat, bands.Top, investigation.Input.AsOf), null)
                : null;
        }

        return new Foreseen(check, null, default, null);
    }

    private IEnumerable<CheckAdvice> Price(IReadOnlySet<string>? tools, HashSet<string> hookedUp)
    {
        (RepairOption[] repairs, _, double now) = RepairPlanner.Plan(_options, _costs.Specialist, 2, set => _ranking.Gone(new Repair(false, set)));

        // 1. what each check saves and tells, its own time not yet paid
        // (what single repairs make of all checks first; pairs of repairs only for those that tell something)
        (Prospect Prospect, double Bits)[] prospects = [.. Enumerable.Range(0, _checks.Length).Where(k => _book.Of(k, null) is not null)
            .Select(k => new Prospect(this, k, _book.Of(k, null)!)).Select(p => (p, Bits(p)))];
        _book.Narrow([.. prospects.Where(p => p.Bits >= Telling).Select(p => p.Prospect.Check)]);
        Priced[] priced = [.. prospects.Select(p => Value(p.Prospect, p.Bits, now, tools))];

        // 2. a hook-up is paid once: checks that would pay without it share its cost
        double least = repairs.Length > 0 ? WorthWhile * now : 0;
        ILookup<string, Priced> sharing = priced.Where(p => p.AtHand && p.Source.Setup is string setup && !hookedUp.Contains(setup) && p.Gross - (p.Source.Minutes * _costs.RatePerMinute) >= least)
            .ToLookup(p => p.Source.Setup!);
        foreach (Priced p in priced)
        {
            Priced[] same = p.Source.Setup is string setup ? [.. sharing[setup]] : [];
            double setupMinutes = p.Source.Setup is null || hookedUp.Contains(p.Source.Setup) ? 0 : p.Source.SetupMinutes;
            double share = same.Contains(p) ? setupMinutes / same.Length : setupMinutes;
            double saving = p.Gross - ((p.Source.Minutes + share) * _costs.RatePerMinute), minutes = p.Source.Minutes + setupMinutes;
            yield return new CheckAdvice(
                p.Source.Id, minutes, setupMinutes, [.. same.Where(o => o != p).Select(o => o.Source.Id)], minutes * _costs.RatePerMinute,
                saving, p.Bits, p.AtHand, p.AtHand && saving >= least && saving > 0, p.Outcomes);
        }
    }

    /// <param name="Gross">Expected cost saved, the check's own cost not taken off.</param>
    private sealed record Priced(Check Source, double Gross, double Bits, bool AtHand, IReadOnlyList<OutcomeForecast> Outcomes);

    private Priced Value(Prospect prospect, double bits, double now, IReadOnlySet<string>? tools)
    {
        double[] plain = prospect.Plain;
        double after = Enumerable.Range(0, plain.Length).Where(o => plain[o] >= Never).Sum(o => plain[o] * CostAfter(prospect, o, bits >= Telling));
        Check source = _checks[prospect.Check].Check.Source;
        return new Priced(source, now - after, bits, tools is null || source.Tools.All(tools.Contains), [.. Forecasts(prospect)]);
    }

    /// <summary>What a check may show, with and without the events of repairs; each asked for once.</summary>
    private sealed class Prospect(CheckAdvisor advisor, int check, double[] plain)
    {
        private readonly Dictionary<(int, int), (double Gone, double[] Cells)> _known = [];

        public int Check => check;

        public double[] Plain => plain;

        /// <summary>P(gone by the repairs | the cell).</summary>
        public double Gone(int first, int second, int cell, bool pairs = true)
        {
            (double gone, double[] cells) = second < 0 || pairs ? Of(first, second) : (advisor._ranking.Gone(Set(first, second)), plain);
            return gone <= 0 ? 0 : Math.Clamp(gone * cells[cell] / plain[cell], 0, 1);
        }

        /// <summary>The same for an outcome, which may be several cells.</summary>
        public double Gone(int part, IReadOnlyList<int> cells, double p)
        {
            (double gone, double[] all) = Of(part, -1);
            return gone <= 0 ? 0 : Math.Clamp(gone * cells.Sum(c => all[c]) / p, 0, 1);
        }

        private (double Gone, double[] Cells) Of(int first, int second)
        {
            (int, int) key = first < second ? (first, second) : (second, first);
            if (!_known.TryGetValue(key, out var known))
            {
                Repair repair = Set(first, second);
                double gone = advisor._ranking.Gone(repair);
                _known[key] = known = (gone, gone <= 0 ? plain : advisor._book.Of(check, repair) ?? plain);
            }

            return known;
        }

        private static Repair Set(int first, int second) => first < 0 && second < 0 ? Repair.Nothing
            : second < 0 ? new Repair(false, first) : first < 0 ? new Repair(false, second) : new Repair(false, first, second);
    }

    private double CostAfter(Prospect prospect, int cell, bool pairs) => RepairPlanner.Plan(_options, _costs.Specialist, 2, set =>
        prospect.Gone(set.Length > 0 ? set[0] : -1, set.Length > 1 ? set[1] : -1, cell, pairs)).Cost;

    private IEnumerable<OutcomeForecast> Forecasts(Prospect prospect)
    {
        Foreseen check = _checks[prospect.Check];
        foreach (var outcome in check.OutcomeOf.Select((o, cell) => (o, cell)).GroupBy(c => c.o, c => c.cell))
        {
            int[] cells = [.. outcome];
            double p = cells.Sum(c => prospect.Plain[c]);
            if (p >= Never)
            {
                double already = prospect.Gone(-1, cells, p);
                yield return new OutcomeForecast(check.Check.OutcomeIds[outcome.Key], check.Check.OutcomeTitles[outcome.Key], p,
                    [.. _candidates.Select(c => new CureAfter(_situation.Index.Parts[c].Id, Math.Max(0, prospect.Gone(c, cells, p) - already)))
                        .OrderByDescending(c => c.Cure).Take(Leaders)]);
            }
        }
    }

    /// <summary>Information between the outcome and which single repair cures; what no candidate cures is one more possibility.</summary>
    private double Bits(Prospect prospect)
    {
        double[] before = Shares(_ranking.Cure, _ranking.Already);
        double bits = 0;
        for (int o = 0; o < prospect.Plain.Length; o++)
        {
            if (prospect.Plain[o] >= Never)
            {
                double already = prospect.Gone(-1, -1, o);
                double[] after = Shares(c => Math.Max(0, prospect.Gone(c, -1, o) - already), already);
                bits += prospect.Plain[o] * after.Zip(before, (a, b) => a > 0 && b > 0 ? a * Math.Log2(a / b) : 0).Sum();
            }
        }

        return Math.Max(0, bits);
    }

    private double[] Shares(Func<int, double> cure, double already)
    {
        double[] cures = [.. _candidates.Select(cure), already];
        double rest = Math.Max(0, 1 - cures.Sum()), total = cures.Sum() + rest;
        return [.. cures.Append(rest).Select(c => c / total)];
    }
}
