using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>For each component one sentence that a mechanic would say of it, the reason that matters first, then how likely it is and what
/// it would explain.</summary>
internal sealed class SuspectSentences(AnswerTexts texts, Answered answered, ReasonClauses clauses)
{
    /// <summary>A reason against is worth saying beside one for if it halves the odds.</summary>
    private const double Worth = 2;

    /// <summary>Of an item's relief: less than the first means that no path leads there; the second counts as explaining it.</summary>
    private const double Unlinked = 1e-3, Explained = 0.05;

    public string Of(RankedFault fault) => ReasonClauses.Upper(Seen(fault) ?? Newer(fault) ?? Reasoned(fault)) + ".";

    /// <summary>A part that lies bad on the bench needs no chance: what counts is what it explains.</summary>
    private string? Seen(RankedFault fault)
    {
        if (fault.Bad < 0.5 || answered.Items.FirstOrDefault(i => i.Kind == ItemKind.Part && i.Name == fault.Component) is not { } seen)
        {
            return null;
        }

        var explains = Explains(fault, own: false);
        return $"{clauses.Of(new WhyFactor("finding", seen.Findings[^1], 1), fault.Component)}: {(explains.Length > 0 ? explains : "put it right for its own sake")}";
    }

    /// <summary>A part that was renewed, beside one that explains more and of which nothing is known.</summary>
    private string? Newer(RankedFault fault)
    {
        var older = answered.Ranking.TakeWhile(r => r.Component != fault.Component)
            .FirstOrDefault(r => !AnswerTexts.IsOtherCause(r.Component) && !Known(r) && r.Explains > fault.Explains);
        if (older is null || fault.Why.FirstOrDefault(w => w.Kind == "work" && w.Factor < 1 / Worth) is not { } reason
            || texts.Gathered.Work.FirstOrDefault(w => w.Entry.Id == reason.Id) is not { Action: "fitted" or "rebuilt" } work)
        {
            return null;
        }

        return $"{clauses.Done(work, fault.Component)}, so it is less likely than the {Sentences.Low(older.Title)}, of which nothing is known: {Ending(fault)}";
    }

    private bool Known(RankedFault fault) => texts.Gathered.Work.Any(w => w.Action is "fitted" or "rebuilt"
        && (w.Components.Contains(fault.Component) || w.Components.Any(id => texts.Model.Components.FirstOrDefault(c => c.Id == id)?.Includes.Contains(fault.Component) == true)));

    private string Reasoned(RankedFault fault)
    {
        // that the car once ran well is true of every part alike, so it tells none from another
        List<WhyFactor> told = [.. fault.Why.Where(w => w.Kind is not ("ran-well" or "drove"))];
        if (told.Count == 0)
        {
            return $"{Silent(fault)}: {Ending(fault)}";
        }

        // the strongest of the side to which these moved the part
        var up = told.Sum(w => Math.Log(w.Factor)) >= 0;
        var first = told.FirstOrDefault(w => w.Factor >= 1 == up) ?? told[0];
        var but = first.Factor >= 1 && told.FirstOrDefault(w => w.Factor < 1 / Worth) is { } against ? $", although {Sentences.Low(clauses.Of(against, fault.Component))}" : "";
        return $"{clauses.Of(first, fault.Component)}, {ReasonClauses.Speaks(first)} {Name(fault)}{but}: {Ending(fault)}";
    }

    private string Silent(RankedFault fault) =>
        AnswerTexts.IsOtherCause(fault.Component) ? "nothing found tells of a cause outside this model"
        : Known(fault) ? "nothing found tells of it either way"
        : "nothing found tells of it either way, and nothing is recorded of a new one";

    private string Ending(RankedFault fault)
    {
        var chance = $"{texts.Chance(fault.Bad)} that {(AnswerTexts.IsOtherCause(fault.Component) ? "there is one" : "it is bad")}";
        var explains = Explains(fault, own: true);
        return explains.Length == 0 ? chance : $"{chance}; {explains}";
    }

    /// <summary>"the fuel accumulator (diaphragm ruptured)": with the mode where one stands out.</summary>
    private static string Name(RankedFault fault)
    {
        if (AnswerTexts.IsOtherCause(fault.Component))
        {
            return "a cause outside this model";
        }

        var mode = fault.Modes is [var first, _, ..] && first.Probability > 0.6 * fault.Bad && fault.Bad > 0.1 ? $" ({first.Title})" : "";
        return $"the {Sentences.Low(fault.Title)}{mode}";
    }

    private string Explains(RankedFault fault, bool own)
    {
        var open = answered.Items.Select((item, i) => (Item: item, Relief: fault.Relieves.ElementAtOrDefault(i)))
            .Where(x => x.Item.Resolved < 0.5 && (own || x.Item.Kind != ItemKind.Part || x.Item.Name != fault.Component)).ToList();
        List<string> explained = [.. open.Where(x => x.Relief >= Explained).Select(x => Thing(x.Item, fault))];
        // what was seen of another part is that part's own
        List<string> standing = [.. open.Where(x => x.Relief < Unlinked && x.Item.Kind != ItemKind.Part).Select(x => Thing(x.Item, fault))];
        var unlinked = standing.Count == 0 ? "" : $"nothing in this model links it to {Joined(standing)}";
        if (explained.Count == 0)
        {
            return fault.Bad < Explained || unlinked.Length == 0 ? "" : standing.Count == open.Count ? "nothing in this model links it to this complaint" : unlinked;
        }

        return $"{(fault.Bad > 0.5 ? "it explains" : "it would explain")} {Joined(explained)}{(unlinked.Length == 0 ? "" : $"; {unlinked}")}";
    }

    private string Thing(RankedItem item, RankedFault fault) => item.Kind switch
    {
        ItemKind.Event => $"\"{item.Title}\"",
        ItemKind.Part => item.Name == fault.Component ? "what was seen of it" : $"what was seen of the {Sentences.Low(item.Title)}",
        _ => texts.Model.Checks.FirstOrDefault(c => c.Id == item.Name)?.Kind switch
        {
            CheckKind.LeakDown => "the pressure that did not hold",
            CheckKind.Measurement => $"the reading of \"{item.Title}\"",
            _ => $"what \"{item.Title}\" showed",
        },
    };

    private static string Joined(List<string> things)
    {
        List<string> each = [.. things.Distinct()];
        return each.Count < 2 ? string.Concat(each) : $"{string.Join(", ", each.Take(each.Count - 1))} and {each[^1]}";
    }
}
