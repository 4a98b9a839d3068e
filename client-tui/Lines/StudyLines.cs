using System.Globalization;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>What causes what in a fuel system, and what tells it apart.</summary>
internal static class StudyLines
{
    private const int Best = 5;

    /// <param name="first">A component whose faults come first.</param>
    public static IReadOnlyList<Line> Of(FaultModelStudy study, string? first, int width, Signs signs) =>
    [
        .. Wrapped($"{study.Title}: fault model {study.Id}, revision {study.Revision}.", width, signs, Role.Title),
        .. Wrapped("Worked out from the model's file: each fault alone on a car with nothing else wrong, gauges without error. A check of 1 bit settles whether the fault is there, one of 0 tells nothing.", width, signs, Role.Faint),
        .. study.Faults.OrderBy(fault => fault.Component != first).SelectMany(fault => Fault(fault, width, signs)),
        LikelyLines.Rule("What pushes what", width, signs),
        .. study.Conditions.SelectMany(condition => Wrapped($"{condition.Title}: {Named(condition.Causes)}", width, signs)),
        LikelyLines.Rule("Hard to tell apart", width, signs),
        .. study.Pairs.Count == 0 ? Wrapped("No two faults: a check separates each pair.", width, signs)
            : study.Pairs.SelectMany(pair => Wrapped($"{pair.A.Title} / {pair.B.Title}: best by {pair.Check.Title}, {Two(pair.Apart)} of 1{(pair.Why is { } why ? $". {why}" : "")}", width, signs)),
    ];

    public static IEnumerable<Line> Heads(IReadOnlyList<FaultModelHead> heads, IReadOnlyList<RefusedFaultModel> refused, Signs signs) =>
    [
        .. heads.Select(head => Line.Of(Clean.Of($"{head.Id}  {head.Title}, revision {head.Revision}{(head.Own ? ", your own" : "")}", signs))),
        .. refused.SelectMany(file => file.Reasons.Select(reason => Line.Of(Clean.Of($"cannot be used: {(reason.StartsWith(file.File, StringComparison.Ordinal) ? reason : $"{file.File}: {reason}")}", signs), Role.Warning))),
    ];

    private static IEnumerable<Line> Fault(StudiedFault fault, int width, Signs signs) =>
    [
        LikelyLines.Rule(Clean.Of(fault.Title, signs), width, signs),
        .. Part("Moves", Named(fault.Acts), width, signs),
        .. Part("Shows as", string.Join(", ", fault.Events.Select(told => $"{told.Title} {Figures.Percent(told.Value)}")), width, signs),
        .. Part("Told by", string.Join(", ", fault.Checks.Take(Best).Select(check => $"{check.Title} {Two(check.Value)} bits")), width, signs),
        .. Part("Brought on by", Named(fault.CausedBy), width, signs),
        .. Wrapped($"{fault.Trust.Replace('-', ' ')}: {fault.Source}", width, signs, Role.Faint),
    ];

    private static IEnumerable<Line> Part(string label, string text, int width, Signs signs) => text.Length == 0 ? [] : Wrapped($"{label}: {text}", width, signs);

    private static string Named(IEnumerable<NamedThing> things) => string.Join(", ", things.Select(thing => thing.Title));

    private static string Two(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);

    private static IEnumerable<Line> Wrapped(string text, int width, Signs signs, Role role = Role.Plain) => Cells.Wrap(Clean.Of(text, signs), width - 4).Select(line => Line.Of("  " + line, role));
}
