using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Findings;

/// <summary>What may be said of events: which there are, with which facets.</summary>
internal static class EventRules
{
    /// <summary>What may be answered.</summary>
    public static readonly string[] Answers = ["present", "absent", "only", "always"];

    /// <summary>Events, their cells, and ids of earlier revisions: all are taken.</summary>
    public static IEnumerable<string> Ids(FaultModel model) =>
        model.Events.Select(e => e.Id).Concat(model.Cells.Select(c => c.Id)).Concat(model.Events.SelectMany(e => e.Formerly.Keys)).Distinct();

    /// <param name="at">Pointer of the answer; its members are event, when, then and the outcome's name.</param>
    /// <returns>What it claims; null with a fault.</returns>
    public static EventClaims? Check(Faults faults, FaultModel model, string at, string outcome, EventAnswer said)
    {
        if (ToldEvent.Of(model, said.Event, said.When ?? [], said.Then ?? []) is not { } told)
        {
            faults.Known($"{at}/event", "event", said.Event, Ids(model));
            return null;
        }

        bool known = Facets(faults, $"{at}/when", "when", said.When, told.All.Select(c => c.When), model.When)
            & Facets(faults, $"{at}/then", "then", said.Then, told.All.Select(c => c.Then), model.Then);
        if (!known)
        {
            return null;
        }

        if (told.Meant.Count == 0)
        {
            faults.Add($"{at}/when", Problems.Unsuitable,
                $"These facets do not go together for \"{said.Event}\". There are: {string.Join("; ", told.All.Select(c => c.Title))}. Leave one side open, or choose one of these.");
            return null;
        }

        if (said.Answer == "only" && told.Meant.Count == told.All.Count)
        {
            faults.Add($"{at}/{outcome}", Problems.Unsuitable, "\"only\" says that it happens at no other time, so say when it happens, or answer present.");
            return null;
        }

        return new EventClaims(told, said.Answer);
    }

    private static bool Facets(Faults faults, string at, string side, IReadOnlyList<string>? said, IEnumerable<string?> has, IReadOnlyList<Facet> titles)
    {
        string[] known = [.. has.OfType<string>().Distinct()], wrong = [.. (said ?? []).Except(known)];
        foreach (var facet in wrong)
        {
            var there = known.Length == 0 ? "it has none, so leave it out" : "there are " + string.Join(", ", known.Select(k => $"{k} ({CommonWords.Title(titles, k)})"));
            faults.Add(at, Problems.Unknown, $"\"{facet}\" is no {side} of this event; {there}.");
        }

        return wrong.Length == 0;
    }
}
