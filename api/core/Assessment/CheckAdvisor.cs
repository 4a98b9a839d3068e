using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>Prices every check not yet made: what its outcomes would save, and what they would tell (MODEL.md 8). One propagation with a
/// repair set's event entered gives that event's joint with every outcome of every check, so singles and pairs of the leaders price all
/// checks to depth two.</summary>
internal sealed class CheckAdvisor : IDisposable
{
    /// <summary>Savings under this share of the present cost count as nothing.</summary>
    private const double WorthWhile = 0.03;

    /// <summary>A check that tells less than this about which single repair cures is not looked at for pairs of repairs.</summary>
    private const double Telling = 0.03;

    private const int Leaders = 3;

    private readonly Situation _situation;
    private readonly Ranking _ranking;
    private readonly Costs _costs;
    private readonly int[] _candidates;
    private readonly Foreseen[] _checks;
    private readonly OutcomeBook _book;
    private readonly double[] _repairCost;

    private CheckAdvisor(Situation situation, Ranking ranking, Costs costs, int[] candidates, Foreseen[] checks)
    {
        (_situation, _ranking, _costs, _candidates, _checks) = (situation, ranking, costs, candidates, checks);
        _book = new OutcomeBook(situation, checks);
        _repairCost = [.. situation.Index.Parts.Select(p => candidates.Contains(p.Index) ? costs.Of(p.Source, ranking.States[p.Index].AsSpan(1)).Cost : 0)];
    }

    public static IReadOnlyList<CheckAdvice> Advise(Situation situation, Ranking ranking, EvidenceList list, Investigation investigation, Costs costs, int[] candidates)
    {
        HashSet<string> done = [.. investigation.Findings.Where((f, i) => f.Check is not null && investigation.StretchOf(i) == investigation.Stretches - 1).Select(f => f.Check!)];
        HashSet<string> hookedUp = [.. investigation.Findings.Where(f => f.Day == investigation.Input.AsOf && f.Check is not null)
            .Select(f => situation.Index.Check(f.Check!).Source.Setup).OfType<string>()];
        Foreseen[] checks = [.. situation.Index.Checks.Where(c => !done.Contains(c.Source.Id)).Select(c => Foresee(c, list, investigation)).OfType<Foreseen>()];
        using var advisor = new CheckAdvisor(situation, ranking, costs, candidates, checks);
        return [.. advisor.Price(investigation.Input.ToolsAtHand, hookedUp)];
    }

    public void Dispose() => _book.Dispose();

    private static Foreseen? Foresee(CheckIndex check, EvidenceList list, Investigation investigation)
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
            var middle = new Dictionary<string, double>();
            if (check.Source.Covariate is Covariate c && check.Source.Limits!.Points.Count > 0)
            {
                middle[c.Id] = check.Source.Limits.Points[check.Source.Limits.Points.Count / 2].At ?? 0;
            }

            return list.BandsOf(check, middle) is BandEdges bands
                ? new Foreseen(check, bands, ReadingError.Of(instrument, bands.Edges[^2], check.Source.Repeat, bands.Top, investigation.Input.AsOf), null)
                : null;
        }

        return new Foreseen(check, null, default, null);
    }

    private IEnumerable<CheckAdvice> Price(IReadOnlySet<string>? tools, HashSet<string> hookedUp)
    {
        double now = RepairPlanner.Plan(_candidates, c => _repairCost[c], _costs.Specialist, 2, set => _ranking.Gone(new Repair(false, set))).Cost;
        for (int k = 0; k < _checks.Length; k++)
        {
            Check source = _checks[k].Check.Source;
            if (_book.Of(k, null) is not double[] plain)
            {
                continue;
            }

            double minutes = source.Minutes + (source.Setup is not null && !hookedUp.Contains(source.Setup) ? source.SetupMinutes : 0);
            double cost = minutes * _costs.RatePerMinute, after = 0;
            double bits = Bits(k, plain);
            var forecasts = new List<OutcomeForecast>();
            for (int o = 0; o < plain.Length; o++)
            {
                double p = plain[o];
                if (p < 1e-9)
                {
                    continue;
                }

                after += p * CostAfter(k, o, p, bits >= Telling);
                forecasts.Add(Forecast(k, o, p));
            }

            bool atHand = tools is null || source.Tools.All(tools.Contains);
            double saving = now - after - cost;
            yield return new CheckAdvice(source.Id, minutes, cost, saving, bits, atHand, atHand && saving >= WorthWhile * now && saving > 0, forecasts);
        }
    }

    private double CostAfter(int check, int outcome, double p, bool pairs) =>
        RepairPlanner.Plan(_candidates, c => _repairCost[c], _costs.Specialist, 2, set =>
            set.Length > 1 && !pairs ? _ranking.Gone(new Repair(false, set)) : GoneAfter(new Repair(false, set), check, outcome, p)).Cost;

    /// <summary>P(gone by the repair | the outcome).</summary>
    private double GoneAfter(Repair repair, int check, int outcome, double p)
    {
        double gone = _ranking.Gone(repair);
        return gone <= 0 ? 0 : Math.Clamp(gone * (_book.Of(check, repair)?[outcome] ?? p) / p, 0, 1);
    }

    private double CureAfter(int part, int check, int outcome, double p) =>
        Math.Max(0, GoneAfter(new Repair(false, part), check, outcome, p) - GoneAfter(Repair.Nothing, check, outcome, p));

    private OutcomeForecast Forecast(int check, int outcome, double p) => new(
        _checks[check].Check.OutcomeIds[outcome],
        _checks[check].Check.OutcomeTitles[outcome],
        p,
        [.. _candidates.Select(c => new CureAfter(_situation.Index.Parts[c].Id, CureAfter(c, check, outcome, p)))
            .OrderByDescending(c => c.Cure).Take(Leaders)]);

    /// <summary>Information between the outcome and which single repair cures; what no candidate cures is one more possibility.</summary>
    private double Bits(int check, double[] outcomes)
    {
        double[] before = Shares(_ranking.Cure, _ranking.Already);
        double bits = 0;
        for (int o = 0; o < outcomes.Length; o++)
        {
            double p = outcomes[o];
            if (p >= 1e-9)
            {
                double[] after = Shares(c => CureAfter(c, check, o, p), GoneAfter(Repair.Nothing, check, o, p));
                bits += p * after.Zip(before, (a, b) => a > 0 && b > 0 ? a * Math.Log2(a / b) : 0).Sum();
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
