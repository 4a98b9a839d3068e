using FuelHistory.Contracts;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Two assessments of one complaint side by side.</summary>
internal static class Comparison
{
    /// <summary>Nobody sees less than this in whole percents.</summary>
    private const double Unseen = 0.001;

    private const int Most = 12;

    public static WhatIfAnswer Of(BothAnswers before, BothAnswers after, IReadOnlyList<string> tried, IReadOnlyList<string> without) => new(
        AssessmentAnswer.Short(after.Assessment), after.Advice, Changes(before.Assessment, after.Assessment), before.Assessment.Outcome,
        before.Assessment.Ranking is [var first, ..] ? new Leader(first.Component, first.Title, first.Explains) : null,
        before.Assessment.Resolved, before.Advice.Plan?.ExpectedCost, after.Advice.Plan?.ExpectedCost, tried, without);

    /// <summary>Empty where one of the two has no ranking.</summary>
    private static List<Change> Changes(Assessment before, Assessment after)
    {
        var was = before.Ranking.ToDictionary(r => r.Component);
        return [.. after.Ranking.Where(r => was.ContainsKey(r.Component))
            .Select(r => new Change(r.Component, r.Title, was[r.Component].Explains, r.Explains, was[r.Component].Bad, r.Bad))
            .Where(c => Moved(c) > Unseen).OrderByDescending(Moved).ThenBy(c => c.Component, StringComparer.Ordinal).Take(Most)];
    }

    private static double Moved(Change c) => Math.Max(Math.Abs(c.ExplainsAfter - c.ExplainsBefore), Math.Abs(c.BadAfter - c.BadBefore));
}
