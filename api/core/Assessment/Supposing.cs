using System.Globalization;

namespace FuelHistory.Core.Assessment;

/// <summary>Takes findings about worlds that were not out of a network that they make too large (MODEL.md 7, "too large").</summary>
internal static class Supposing
{
    /// <summary>A network with such findings may have this many entries.</summary>
    private const long Allowed = 400_000;

    /// <summary>Largest difference in any part's P(bad), on cars and complaints of the benchmark where both ways can be asked: said in the answer.</summary>
    public const double LargestSeen = 0.15;

    /// <summary>Likewise of what a part explains.</summary>
    private const double LargestSeenOfExplains = 0.29;

    /// <summary>Said in the answer.</summary>
    public static string Note { get; } = string.Create(
        CultureInfo.InvariantCulture,
        $"Trials and own observations of a side count by what they say of their own parts, to keep the computation small; other parts' "
        + $"probabilities may be off by {LargestSeen:0.00}, and what they explain by {LargestSeenOfExplains:0.00} at most, as far as was seen.");

    /// <summary>The network in which such a finding is among all others may have this many entries.</summary>
    private const long Most = 1_500_000;

    /// <summary>Rounds of fitting the parts' factors; one part is right after the first.</summary>
    private const int Rounds = 4;

    /// <summary>The situation itself where it is small enough; else with each such finding turned into factors, one after the other.</summary>
    /// <returns>The situation, the findings that were turned, and those left out because even alone they do not fit.</returns>
    public static (Situation Situation, IReadOnlyList<string> Turned, IReadOnlyList<string> LeftOut) Within(Situation situation, long allowed = Allowed)
    {
        Hypothetical[] supposed = [.. situation.Evidence.OfType<Hypothetical>().OrderBy(h => h.Decides)];
        if (supposed.Length == 0 || situation.Fits(allowed))
        {
            return (situation, [], []);
        }

        // those that decide least go first, as many as must
        Evidence[] rest = [.. situation.Evidence.Where(e => e is not Hypothetical)];
        List<string> turnedFindings = [], leftOut = [];
        for (int i = 0; i < supposed.Length; i++)
        {
            SupposedEvidence? turned = Turn(situation, rest, supposed[i]);
            (turned is null ? leftOut : turnedFindings).AddRange(supposed[i].Findings);
            rest = turned is null ? rest : [turned, .. rest];                 // before the events, to which it may bring arrows
            Situation fewer = situation.With(evidence: [.. supposed.Skip(i + 1), .. rest]);
            if (i + 1 < supposed.Length && fewer.Fits(allowed))
            {
                return (fewer, turnedFindings, leftOut);
            }
        }

        return (situation.With(evidence: rest), turnedFindings, leftOut);
    }

    /// <summary>Among all other findings; where that is too large, among those of its own events and stretch.</summary>
    private static SupposedEvidence? Turn(Situation situation, Evidence[] rest, Hypothetical finding) =>
        Among(situation, rest, finding, Most) ?? Among(situation, [.. rest.Select(e => Near(e, finding)).OfType<Evidence>()], finding, long.MaxValue)
        ?? ByRise(situation, rest, finding);

    /// <summary>Where even that is too large: of the part tried alone, by how much the events raise it. With it bad in a mode an event would be
    /// right without it with 1 - P(event | ok) / P(event | mode), as far as the part depends on nothing else.</summary>
    private static SupposedEvidence? ByRise(Situation situation, Evidence[] rest, Hypothetical finding)
    {
        SupposedEvidence arrows = finding.ArrowsAlone() with { Tried = finding.Tried };
        int[] events = [.. finding.Events.Select(e => e.Event.Index)];
        Situation told = situation.With(evidence: [arrows, .. rest]);
        Omitted reports = new(rest.OfType<EventEvidence>().Where(e => events.Contains(e.Source.Index)).SelectMany(e => e.Findings));
        if (finding.Tried < 0 || Tried(told, finding, new Omitted()) is not double[] with || Tried(told, finding, reports) is not double[] without)
        {
            return null;
        }

        double[] gone = [.. with.Select((p, s) => s == 0 || p <= 0 || with[0] <= 0 || without[0] <= 0 ? 0 : Math.Max(0, 1 - (without[s] / without[0] / (p / with[0]))))];
        double[] weight = [.. gone.Select(finding.Weight)];
        double bad = with.Skip(1).Select((p, s) => p * weight[s + 1]).Sum(), relieved = with.Select((p, s) => p * gone[s]).Sum() * finding.Weight(1);
        return arrows with
        {
            Parts = [new OwnEvidence(finding.Id, finding.World, finding.Tried, [.. weight.Select(w => w / weight[0])])],
            Relieves = bad <= 0 ? 0 : Math.Min(1, relieved / bad),
        };
    }

    /// <summary>P(ok), P(mode) of the part tried in its stretch; null where the findings are impossible, or their network too large.</summary>
    private static double[]? Tried(Situation situation, Hypothetical finding, Omitted without)
    {
        try
        {
            return situation.StatesIn([finding.World], without)?[0][finding.Tried];
        }
        catch (TooLargeException)
        {
            return null;
        }
    }

    private static Evidence? Near(Evidence evidence, Hypothetical finding) => evidence switch
    {
        EventEvidence told when finding.Events.Any(e => e.Event == told.Source) =>
            told.In(finding.World),
        SeenEvidence or OwnEvidence or OnsetEvidence => evidence,
        _ => null,
    };

    private static SupposedEvidence? Among(Situation situation, Evidence[] rest, Hypothetical finding, long most)
    {
        // 1. the finding in a world of its own, among what is known
        Hypothetical plain = finding.Plain;
        try
        {
            Situation alone = situation.With(evidence: [plain, .. rest]);
            return alone.Entries() <= most && alone.Suppose(plain) is (double[][] with, double[][] without)
                ? Fitted(situation, rest, finding, plain, with, without, alone.AllRight(plain)) : null;
        }
        catch (TooLargeException)
        {
            return null;
        }
    }

    /// <summary>2. the parts that are otherwise there, by factors under which the network without that world gives the same probabilities.</summary>
    private static SupposedEvidence Fitted(
        Situation situation, Evidence[] rest, Hypothetical finding, Hypothetical plain, double[][] with, double[][] without, double allRight)
    {
        PartCopy?[] parts = plain.Parts(situation.Worlds), now = situation.Worlds.Stretches[finding.World];
        int[] changed = [.. Enumerable.Range(0, parts.Length).Where(p => !ReferenceEquals(parts[p], now[p]))];
        var turned = new SupposedEvidence(
            finding.Id, finding.World, [.. changed.Select(p => Factor(finding.Id, finding.World, p, with[p], without[p], null))], finding.Arrows,
            plain.Events.Select(e => e.Event.Index).ToHashSet(), finding.Tried,
            finding.Tried < 0 || with[finding.Tried][0] >= 1 ? 0 : Math.Min(1, allRight / (1 - with[finding.Tried][0])));
        for (int round = 1; round < Rounds && changed.Length > 1; round++)
        {
            double[][]? given = situation.With(evidence: [turned, .. rest]).StatesIn([finding.World], new Omitted())?[0];
            turned = given is null ? turned
                : turned with { Parts = [.. turned.Parts.Select(p => Factor(finding.Id, finding.World, p.Part, with[p.Part], given[p.Part], p))] };
        }

        return turned;
    }

    /// <summary>The factor on a part's modes that takes the distribution given to the one wanted, upon what it was before.</summary>
    internal static OwnEvidence Factor(string id, int world, int part, double[] with, double[] given, OwnEvidence? before)
    {
        double[] factors = new double[with.Length];
        for (int s = 0; s < with.Length; s++)
        {
            double odds = given[s] > 0 && given[0] > 0 && with[0] > 0 ? with[s] / with[0] / (given[s] / given[0]) : 1;
            factors[s] = odds * (before?.Likelihood[s] ?? 1);
        }

        return new OwnEvidence(id, world, part, factors);
    }
}
