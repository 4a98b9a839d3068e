using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Something tried and not stored: a finding not made, or work not done. Text says it in words.</summary>
internal sealed record Trial(string Text, NewFinding? Finding = null, NewWork? Work = null)
{
    /// <summary>Two trials of the same subject cannot stand beside each other.</summary>
    public string Subject => Finding is { } finding ? $"{finding.Check}/{finding.Event}" : string.Join(',', Work!.Components);

    public static WhatIf Ask(IEnumerable<Trial> trials, IEnumerable<string> leaveOut)
    {
        var all = trials.ToList();
        return new([.. all.Select(each => each.Finding).OfType<NewFinding>()], [.. all.Select(each => each.Work).OfType<NewWork>()], [.. leaveOut]);
    }

    /// <summary>The faults of the only finding tried, as its form names its fields.</summary>
    public static Problem AtItsFields(Problem problem) => problem with
    {
        Errors = problem.Errors?.Select(fault => fault with { Pointer = fault.Pointer.Replace("/findings/0", "", StringComparison.Ordinal) }).ToList(),
    };

    public static Trial OfOutcome(CheckView check, NamedThing outcome, DateTimeOffset at) =>
        new($"{check.Title}: {outcome.Title}", new NewFinding(at, Check: check.Id, Outcome: outcome.Id));

    public static Trial OfAnswer(NamedThing told, string answer, DateTimeOffset at) =>
        new($"{told.Title}: {answer}", new NewFinding(at, Event: told.Id, Outcome: answer));

    /// <param name="at">The instant where the order among trials matters; without one work goes before what is tried to be found.</param>
    public static Trial OfWork(ComponentView component, string action, DateOnly day, DateTimeOffset? at) =>
        new($"{component.Title} {action}", Work: new NewWork(day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), action, [component.Id], At: at, Quality: action is "fitted" ? "new" : "unknown"));
}

/// <summary>All that can be tried, to be picked from one list: the advised checks first.</summary>
internal static class TrialList
{
    private const string CheckKind = "check", EventKind = "event", PartKind = "part";

    public static PickField Of(FaultModelView model, IReadOnlyList<NextCheck> advised)
    {
        var order = advised.Select((next, place) => (next.Check, place)).ToDictionary();
        return new("try", "Try, without storing it", "", [
            .. model.Checks.OrderBy(check => order.GetValueOrDefault(check.Id, int.MaxValue)).Select(check => Item(CheckKind, check.Id, $"Check: {check.Title}")),
            .. model.Components.Where(part => !part.Instrument).SelectMany(part => part.Actions.Select(action => Item(PartKind, $"{part.Id}/{action}", $"Part: {part.Title} {action}"))),
            .. Events.Of(model).Select(told => Item(EventKind, told.Id, $"Event: {told.Title}")),
        ]);
    }

    public static CheckView? Check(FaultModelView model, string id) => Id(id, CheckKind) is { } check ? model.Checks.First(each => each.Id == check) : null;

    public static NamedThing? Event(FaultModelView model, string id) => Id(id, EventKind) is { } told ? Events.Of(model).First(each => each.Id == told) : null;

    public static (ComponentView Part, string Action)? Part(FaultModelView model, string id) =>
        Id(id, PartKind)?.Split('/') is [var part, var action] ? (model.Components.First(each => each.Id == part), action) : null;

    private static NamedThing Item(string kind, string id, string title) => new($"{kind}:{id}", title);

    private static string? Id(string id, string kind) => id.StartsWith(kind + ":", StringComparison.Ordinal) ? id[(kind.Length + 1)..] : null;
}
