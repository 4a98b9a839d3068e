using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>Prices every check not yet made: what its outcomes would save, and what they would tell (MODEL.md 8). One propagation per
/// suspect, with what its repair relieves entered, gives the outcomes of all checks under that suspect.</summary>
internal sealed class CheckAdvisor
{
    /// <summary>Savings under this share of the present cost count as nothing, as long as there is a repair to go on with.</summary>
    public const double WorthWhile = 0.03;

    /// <summary>A short look without hazard pays at any saving above this share, if it is among the best.</summary>
    private const double AnySaving = 1e-6, ShortMinutes = 10;

    private const int Best = 5, Leaders = 3;

    /// <summary>A check that by the file alone says fewer bits about which suspect it is, and shows none of them, is taken to tell nothing.</summary>
    private const double Telling = 0.02;

    private readonly Situation _situation;
    private readonly Suspects _suspects;
    private readonly Costs _costs;
    private readonly Foreseen[] _checks;
    private readonly OutcomeBook _book;
    private readonly HashSet<int> _telling;

    private CheckAdvisor(Situation situation, Suspects suspects, Costs costs, Foreseen[] checks)
    {
        (_situation, _suspects, _costs, _checks) = (situation, suspects, costs, checks);
        _telling = [.. Enumerable.Range(0, checks.Length).Where(k => Tells(checks[k]))];
        _book = new OutcomeBook(situation, checks, _telling);
    }

    public static IReadOnlyList<CheckAdvice> Advise(
        Situation situation, Suspects suspects, EvidenceList list, Investigation investigation, Costs costs, Proposable open, AdviceRules rules)
    {
        HashSet<string> done = [.. investigation.ThisRound.Select(f => f.Check).OfType<string>()];
        HashSet<string> hookedUp = [.. investigation.Findings.Where(f => f.Day == investigation.Input.AsOf && f.Check is not null)
            .Select(f => situation.Index.Check(f.Check!).Source.Setup).OfType<string>()];
        HashSet<string> answered = rules.Beforehand ? AnsweredChecks.Of(situation.Index, list, investigation) : [];
        Foreseen[] checks = [.. situation.Index.Checks.Where(c => !done.Contains(c.Source.Id) && !answered.Contains(c.Source.Id) && open.May(c.Source)).Select(c => Foresee(c, list, investigation)).OfType<Foreseen>()];
        var advisor = new CheckAdvisor(situation, suspects, costs, checks);
        CheckAdvice[] priced = [.. advisor.Price(investigation.Input.ToolsAtHand, hookedUp), .. TrialAdvisor.Price(situation, suspects, costs, investigation, open)];
        return LookAhead.Ordered([.. Short(priced, suspects.Now.Cost)], suspects, costs, rules.Order);
    }

    /// <summary>Among the best, a short look without hazard pays at any saving.</summary>
    private static IEnumerable<CheckAdvice> Short(CheckAdvice[] priced, double now)
    {
        HashSet<string> best = [.. priced.OrderByDescending(c => c.Saving).Take(Best).Select(c => c.Check)];
        return priced.Select(c => c.ToolsAtHand && best.Contains(c.Check) && c.Minutes <= ShortMinutes && c.Harmless && c.Saving > AnySaving * now
            ? c with { Pays = true }
            : c);
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
        // 1. what each check saves and tells, its own time not yet paid
        Priced[] priced = [.. Enumerable.Range(0, _checks.Length).Select(Value).OfType<Priced>()];

        // 2. a hook-up is paid once: checks that would pay without it share its cost
        double least = _suspects.Now.Order.Length > 0 ? WorthWhile * _suspects.Now.Cost : 0;
        ILookup<string, Priced> sharing = priced.Where(p => AtHand(p.Source, tools) && p.Source.Setup is string setup && !hookedUp.Contains(setup)
            && p.Gross - (p.Source.Minutes * _costs.RatePerMinute) >= least).ToLookup(p => p.Source.Setup!);
        foreach (Priced p in priced)
        {
            Priced[] same = p.Source.Setup is string setup ? [.. sharing[setup]] : [];
            double setupMinutes = p.Source.Setup is null || hookedUp.Contains(p.Source.Setup) ? 0 : p.Source.SetupMinutes;
            double share = same.Contains(p) ? setupMinutes / same.Length : setupMinutes;
            double saving = p.Gross - ((p.Source.Minutes + share) * _costs.RatePerMinute), minutes = p.Source.Minutes + setupMinutes;
            bool atHand = AtHand(p.Source, tools);
            yield return new CheckAdvice(
                p.Source.Id, minutes, setupMinutes, [.. same.Where(o => o != p).Select(o => o.Source.Id)], minutes * _costs.RatePerMinute,
                saving, p.Bits, atHand, atHand && saving >= least && saving > 0, p.Outcomes)
            { Harmless = p.Source.Hazard == "none", Prospect = p.Seen };
        }
    }

    private static bool AtHand(Check check, IReadOnlySet<string>? tools) => tools is null || check.Tools.All(tools.Contains);

    /// <param name="Gross">Expected cost saved, the check's own cost not taken off.</param>
    private sealed record Priced(Check Source, double Gross, double Bits, IReadOnlyList<OutcomeForecast> Outcomes, Prospect Seen);

    /// <summary>By the file alone, each suspect taken as the one fault: worth asking the network what the check would show.</summary>
    private bool Tells(Foreseen check) =>
        _suspects.FileBits(check.Check.Source.Id, _situation.Index) >= Telling || _suspects.Shown(check.Check.Source.Id, _situation.Index);

    /// <summary>Null where the network for the check would be too large.</summary>
    private Priced? Value(int number)
    {
        if (!_telling.Contains(number))
        {
            return new Priced(_checks[number].Check.Source, 0, 0, [], new Prospect([1], [.. _suspects.All.Select(_ => new double[] { 1 })]));
        }

        if (_book.Of(number, null) is not double[] plain)
        {
            return null;
        }

        Foreseen check = _checks[number];
        var prospect = new Prospect(plain, [.. _suspects.All.Select(s => s.Share > 0 ? _book.Of(number, s) ?? plain : plain)]);
        return new Priced(check.Check.Source, _suspects.Saving(prospect), _suspects.Bits(prospect),
            [.. check.OutcomeOf.Select((outcome, cell) => (outcome, cell)).GroupBy(c => c.outcome, c => c.cell)
                .Select(o => Forecast(_situation.Index, _suspects, prospect, check.Check.OutcomeIds[o.Key], check.Check.OutcomeTitles[o.Key], [.. o])).OfType<OutcomeForecast>()], prospect.By(check.OutcomeOf));
    }

    /// <summary>An outcome, which may be several cells, with the leaders after it; null where it never shows.</summary>
    public static OutcomeForecast? Forecast(ModelIndex index, Suspects suspects, Prospect prospect, string id, string title, int[] cells)
    {
        double p = cells.Sum(c => prospect.Plain[c]);
        return p < Suspects.Never ? null : new OutcomeForecast(id, title, p,
            [.. suspects.All.Where(s => s.Part >= 0).Select(s => new ExplainsAfter(index.Parts[s.Part].Id, suspects.After(prospect, s, cells, p)))
                .OrderByDescending(e => e.Explains).Take(Leaders)]);
    }
}
