using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Why the answer is what it is: reasons and sequence per part, what does not fit, and what would turn it.</summary>
internal sealed record Account(WhyFactor[][] Why, SequenceStep[][] Sequence, IReadOnlyList<Misfit> Misfits, Flip? Flip)
{
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
