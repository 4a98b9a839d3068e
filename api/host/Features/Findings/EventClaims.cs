using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.Findings;

/// <summary>What one answer claims of an event: at least one of some cells is present, or all of some are absent.</summary>
internal sealed record EventClaims(ToldEvent Told, string Answer)
{
    private HashSet<string> Meant { get; } = [.. Told.Meant.Select(c => c.Id)];

    private IEnumerable<HashSet<string>> Present => Answer switch
    {
        "absent" => [],
        "always" => Meant.Select(c => new HashSet<string> { c }),
        _ => [Meant],
    };

    private HashSet<string> Absent => Answer switch
    {
        "absent" => Meant,
        "only" => [.. Told.All.Select(c => c.Id).Except(Meant)],
        _ => [],
    };

    /// <summary>Null where the model has no such event, or no such cell of it.</summary>
    public static EventClaims? Of(FaultModel model, EventAnswer told) =>
        ToldEvent.Of(model, told.Event, told.When ?? [], told.Then ?? []) is { Meant.Count: > 0 } found ? new EventClaims(found, told.Answer) : null;

    public static EventClaims? Of(FaultModel model, Finding f) =>
        f.Event is null ? null : Of(model, new EventAnswer(f.Event, f.Outcome ?? "", f.When, f.Then));

    /// <summary>Both cannot be true.</summary>
    public bool Contradicts(EventClaims other) =>
        Told.Event == other.Told.Event && (Present.Any(p => p.IsSubsetOf(other.Absent)) || other.Present.Any(p => p.IsSubsetOf(Absent)));

    /// <summary>All that the other one says is said by this one.</summary>
    public bool Contains(EventClaims other) =>
        Told.Event == other.Told.Event && other.Present.All(o => Present.Any(p => p.IsSubsetOf(o))) && other.Absent.IsSubsetOf(Absent);
}
