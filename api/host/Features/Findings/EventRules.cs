using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

/// <summary>Whether an event was told as the fault model can take it.</summary>
internal static class EventRules
{
    private static readonly string[] Answers = ["present", "absent", "only", "always"];

    /// <param name="at">Pointer to the answer; empty for a finding.</param>
    /// <param name="member">Member that holds the answer.</param>
    /// <returns>Null with a fault.</returns>
    public static ToldEvent? Check(Faults faults, FaultModel model, EventAnswer told, string at, string member)
    {
        Answer(faults, told, at + member);
        if (ToldEvent.Of(model, told.Event, told.When ?? [], told.Then ?? []) is not { } found)
        {
            faults.Known($"{at}/event", "event", told.Event, Ids(model));
            return null;
        }

        var known = Facets(faults, told, found, $"{at}/when", told.When, c => c.When) & Facets(faults, told, found, $"{at}/then", told.Then, c => c.Then);
        if (!known)
        {
            return null;
        }

        if (found.Meant.Count == 0)
        {
            faults.Add($"{at}/event", Problems.Unsuitable, $"\"{told.Event}\" does not happen just so. There are: {Cells(found)}.");
            return null;
        }

        if (told.Answer == "only" && found.Meant.Count == found.All.Count)
        {
            faults.Add(at + member, Problems.Unsuitable, $"\"only\" leaves no other way in which \"{found.Event}\" could happen; say with when or then which one it was, or write present.");
            return null;
        }

        return found;
    }

    /// <summary>Events that may be told: those of the model, and cells that are events of their own.</summary>
    public static IReadOnlyList<string> Ids(FaultModel model) =>
        [.. model.Events.Select(e => e.Id), .. model.Cells.Where(c => c.Event is null).Select(c => c.Id)];

    private static void Answer(Faults faults, EventAnswer told, string pointer)
    {
        if (told.Answer.Length == 0)
        {
            faults.Required(pointer, $"{Names.Field(pointer)} is missing; for the event \"{told.Event}\" it is one of {string.Join(", ", Answers)}.");
        }
        else if (!Answers.Contains(told.Answer))
        {
            faults.Add(pointer, Problems.Unsuitable, $"{Names.Field(pointer)} \"{told.Answer}\" does not fit the event \"{told.Event}\"; it is one of {string.Join(", ", Answers)}.");
        }
    }

    private static bool Facets(Faults faults, EventAnswer told, ToldEvent found, string pointer, IReadOnlyList<string>? given, Func<EventCell, string?> facet)
    {
        if (given is not { Count: > 0 })
        {
            return true;
        }

        if (told.Event != found.Event)
        {
            faults.Add(pointer, Problems.Unsuitable, $"\"{told.Event}\" says already when and how; leave {Names.Field(pointer)} out, or write the event as \"{found.Event}\".");
            return false;
        }

        List<string> there = [.. found.All.Select(facet).OfType<string>().Distinct()];
        if (there.Count == 0)
        {
            faults.Add(pointer, Problems.Unsuitable, $"\"{told.Event}\" is not told apart by {Names.Field(pointer)}; leave it out.");
            return false;
        }

        var all = true;
        for (var i = 0; i < given.Count; i++)
        {
            all &= faults.Known($"{pointer}/{i}", $"{Names.Field(pointer)} of {told.Event}", given[i], there);
        }

        return all;
    }

    private static string Cells(ToldEvent found) =>
        string.Join("; ", found.All.Select(c => string.Join(" with ", new[] { c.When, c.Then }.OfType<string>().DefaultIfEmpty("no more said of it"))));
}
