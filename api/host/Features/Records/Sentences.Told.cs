using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Findings;

namespace FuelHistory.Host.Features.Records;

using OwnObservation = FuelHistory.Contracts.OwnObservation;

/// <summary>What a driver told, what was tried and what somebody thinks, in plain words.</summary>
internal static partial class Sentences
{
    /// <summary>"Hard to start, cold: present".</summary>
    public static string Event(FaultModel model, EventAnswer told)
    {
        var how = told.Answer switch { "only" => "only so, not otherwise", "always" => "every time", _ => told.Answer };
        return $"{EventTitle(model, told)}: {how}";
    }

    /// <summary>The event with its facets; of an id that has become part of an event, those that it stands for.</summary>
    public static string EventTitle(FaultModel model, EventAnswer told)
    {
        if (ToldEvent.Of(model, told.Event, told.When ?? [], told.Then ?? []) is not { } found)
        {
            return told.Event;
        }

        bool named = found.Event == told.Event;
        IReadOnlyList<string> when = named ? told.When ?? [] : Narrowed(found, c => c.When);
        IReadOnlyList<string> then = named ? told.Then ?? [] : Narrowed(found, c => c.Then);
        string[] facets = [.. new[] { Facets(model.When, when), Facets(model.Then, then) }.Where(t => t.Length > 0)];
        return facets.Length == 0 ? found.Title : $"{found.Title}, {string.Join(", ", facets)}";
    }

    /// <summary>"Another fuel pump relay tried: ended; with the old one back it came back".</summary>
    public static string Trial(FaultModel model, TrialDone done, string? outcome)
    {
        var said = outcome switch { "ended" => "ended", "better" => "better", "same" => "made no difference", "worse" => "worse", _ => outcome ?? "" };
        var back = done.Back switch
        {
            "came-back" => "; with the old one back it came back",
            "stayed-away" => "; with the old one back it stayed away",
            _ => "",
        };
        return $"{TrialTitle(model, done)}: {said}{back}";
    }

    public static string TrialTitle(FaultModel model, TrialDone done)
    {
        var known = model.Trials.FirstOrDefault(t => t.Id == done.Trial);
        if ((known?.Component ?? done.Component) is not { } component || known is not null and not { Do: "another" })
        {
            return known?.Title ?? done.Trial ?? "Something tried";
        }

        var title = Component(model, component);
        var quality = done.StandIn switch { "new" => ", new", "new-unbranded" => ", new without a maker's name", "rebuilt" => ", a rebuilt one", _ => "" };
        return (known?.Do ?? done.Do) switch
        {
            "another" => $"Another {Low(title)}{quality} tried",
            "bypass" => $"{title} bypassed",
            "unplug" => $"{title} unplugged",
            _ => $"{title} knocked, moved, warmed or cooled",
        };
    }

    /// <summary>Own observation: "whines when warm" speaks clearly for the fuel pump.</summary>
    public static string Own(FaultModel model, OwnObservation own)
    {
        var target = own.Component is { } id ? Component(model, id) : CarSides.Titles.GetValueOrDefault(own.Side ?? "", own.Side ?? "");
        return $"Own observation: \"{own.Words.Trim()}\" speaks {own.Strength} {own.Direction} the {Low(target)}";
    }

    /// <summary>For the middle of a sentence; a title that begins with an abbreviation stays as it is.</summary>
    public static string Low(string title) =>
        title.Length > 1 && char.IsUpper(title[0]) && !char.IsUpper(title[1]) ? char.ToLowerInvariant(title[0]) + title[1..] : title;

    private static string[] Narrowed(ToldEvent found, Func<EventCell, string?> facet)
    {
        string[] meant = [.. found.Meant.Select(facet).OfType<string>().Distinct()];
        return meant.Length == found.All.Select(facet).OfType<string>().Distinct().Count() ? [] : meant;
    }

    private static string Facets(IReadOnlyList<Facet> known, IReadOnlyList<string> told) =>
        string.Join(" or ", told.Select(id => known.FirstOrDefault(f => f.Id == id)?.Title ?? id));
}
