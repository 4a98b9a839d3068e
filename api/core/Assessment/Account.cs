using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Why the answer is what it is: reasons and sequence per part, what does not fit, and what would turn it.</summary>
internal sealed record Account(WhyFactor[][] Why, SequenceStep[][] Sequence, IReadOnlyList<Misfit> Misfits, Flip? Flip)
{
    /// <summary>Reasons ask of the network of all findings some fifty times; it may have this many entries.</summary>
    private const long Allowed = 1_000_000;

    /// <summary>As <see cref="Of"/>, of the stretches that make no more than that; the earlier ones are folded, and the flip is not looked for.</summary>
    public static Account Within(Situation situation, Ranking ranking, Investigation investigation, LifePrior life, int[] parts)
    {
        Situation smaller = situation;
        while (smaller.Worlds.Stretches.Length > 1 && smaller.Entries() > Allowed && Folding.Step(smaller) is (Situation folded, _))
        {
            smaller = folded;
        }

        return ReferenceEquals(smaller, situation) || Ranking.Of(smaller) is not Ranking ofSmaller ? Of(situation, ranking, investigation, life, parts)
            : Of(smaller, ofSmaller, investigation, life, []);
    }

    /// <param name="parts">Ranked parts, the leader first.</param>
    public static Account Of(Situation situation, Ranking ranking, Investigation investigation, LifePrior life, int[] parts)
    {
        LeaveOneOut left = LeaveOneOut.Of(situation);
        return new Account(
            WhyFactors.Of(situation, ranking, investigation, life, left),
            Assessment.Sequence.Of(situation, investigation),
            Assessment.Misfits.Of(situation, ranking, left),
            Flips.Of(situation, ranking, investigation, parts, left));
    }
}
