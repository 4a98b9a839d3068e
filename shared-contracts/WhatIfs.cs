namespace FuelHistory.Contracts;

/// <summary>What is tried without being stored: findings not made, work not done, and recorded findings or work (by their ids) that
/// shall not count. AsOf: a day; absent: today. Each entry lies where its own date puts it, as if it were recorded now: work of today
/// comes after every recorded finding, and before those tried findings whose instant is later than the last recorded one; with an
/// instant of its own (at) that instant decides.</summary>
public sealed record WhatIf(
    IReadOnlyList<NewFinding>? Findings = null,
    IReadOnlyList<NewWork>? Work = null,
    IReadOnlyList<string>? LeaveOut = null,
    string? AsOf = null);

/// <summary>Assessment and Advice: as they would be; a tried entry's id in it is its pointer into the request (/findings/0). Changes: the components
/// that move, the furthest first. OutcomeBefore, LeaderBefore, ResolvedBefore and CostBefore are of the present answer of the same day;
/// cost is that of the repair plan. Tried and Without: the entries in words.</summary>
public sealed record WhatIfAnswer(
    Assessment Assessment,
    Advice Advice,
    IReadOnlyList<Change> Changes,
    string OutcomeBefore,
    Leader? LeaderBefore,
    double ResolvedBefore,
    double? CostBefore,
    double? CostAfter,
    IReadOnlyList<string> Tried,
    IReadOnlyList<string> Without);

/// <summary>How what one component explains and its probability of being bad would move.</summary>
public sealed record Change(string Component, string Title, double ExplainsBefore, double ExplainsAfter, double BadBefore, double BadAfter);
