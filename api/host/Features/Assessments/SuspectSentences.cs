using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>For each component one sentence that a mechanic would say of it, the reason that matters first.</summary>
internal sealed class SuspectSentences(AnswerTexts texts, Answered? answered)
{
    /// <summary>A reason against is worth saying beside one for if it halves the odds.</summary>
    private const double Worth = 2;

    /// <summary>Of an item's relief: less than the first means that no path leads there; the second counts as explaining it.</summary>
    private const double Unlinked = 1e-3, Explained = 0.05;

    private readonly ReasonClauses clauses = new(texts, answered);

    private string Figures => texts.Gathered.Figures;

    private IReadOnlyList<RankedItem> Items => answered?.Items ?? [];

    public string Of(RankedFault fault)
    {
        var said = Seen(fault) ?? Reasoned(fault);
        return char.ToUpperInvariant(said[0]) + said[1..] + ".";
    }

    /// <summary>A part that lies bad on the bench needs no chance: what counts is what it explains.</summary>
    private string? Seen(RankedFault fault)
    {
        if (Items.FirstOrDefault(i => i.Kind == ItemKind.Part && i.Name == fault.Component) is not { } seen || fault.Bad < 0.5)
        {
            return null;
        }

        var explains = Explains(fault);
        return $"{clauses.Of(new WhyFactor("finding", seen.Findings[^1], 1), fault)}: {(explains.Length > 0 ? explains : "put it right for its own sake")}";
    }

    private string Reasoned(RankedFault fault)
    {
        var name = Name(fault);
        var chance = $"{PlainFigures.Chance(fault.Bad, Figures)} that {(AnswerTexts.IsOtherCause(fault.Component) ? "there is one" : "it is bad")}";
        var explains = Explains(fault);
        var ending = explains.Length == 0 ? chance : $"{chance}; {explains}";
        var up = fault.Bad >= fault.Prior;
        if (fault.Why.FirstOrDefault(w => w.Factor > 1 == up) is not { } first)
        {
            return fault.Why.Count == 0
                ? $"nothing found tells of {name}; by age and use {ending}"
                : $"{Speaks(fault.Why[0], fault, name)}: {ending}";
        }

        var against = up && fault.Why.FirstOrDefault(w => w.Factor < 1 / Worth) is { } but ? $", although {Sentences.Low(clauses.Of(but, fault))}" : "";
        return $"{Speaks(first, fault, name)}{against}: {ending}";
    }

    private string Speaks(WhyFactor reason, RankedFault fault, string name) =>
        $"{clauses.Of(reason, fault)}, which speaks {PlainFigures.Strength(reason.Factor)} {(reason.Factor >= 1 ? "for" : "against")} {name}";

    /// <summary>"the fuel accumulator (diaphragm ruptured)": with the mode where one stands out.</summary>
    private static string Name(RankedFault fault)
    {
        if (AnswerTexts.IsOtherCause(fault.Component))
        {
            return "a cause that is not in this model";
        }

        var mode = fault.Modes is [var first, ..] && fault.Modes.Count > 1 && first.Probability > 0.6 * fault.Bad && fault.Bad > 0.1 ? $" ({first.Title})" : "";
        return $"the {Sentences.Low(fault.Title)}{mode}";
    }

    private string Explains(RankedFault fault)
    {
        var open = Items.Select((item, i) => (Item: item, Relief: fault.Relieves.ElementAtOrDefault(i))).Where(x => x.Item.Resolved < 0.5).ToList();
        List<string> explained = [.. open.Where(x => x.Relief >= Explained).Select(x => Thing(x.Item, fault))];
        if (explained.Count == 0)
        {
            return fault.Bad >= Explained && open.Count > 0 ? "it would explain nothing of this complaint" : "";
        }

        // what was seen of another part is that part's own
        List<string> standing = [.. open.Where(x => x.Relief < Unlinked && x.Item.Kind != ItemKind.Part).Select(x => Thing(x.Item, fault))];
        var left = standing.Count == 0 ? "" : $"; nothing in this model links it to {Joined(standing)}";
        return $"{(fault.Bad > 0.5 ? "explains" : "would explain")} {Joined(explained)}{left}";
    }

    private string Thing(RankedItem item, RankedFault fault) => item.Kind switch
    {
        ItemKind.Event => $"\"{Sentences.Low(item.Title)}\"",
        ItemKind.Part => item.Name == fault.Component ? "what was seen of it" : $"what was seen of the {Sentences.Low(item.Title)}",
        _ => texts.Model.Checks.FirstOrDefault(c => c.Id == item.Name)?.Kind switch
        {
            CheckKind.LeakDown => "the pressure that did not hold",
            CheckKind.Measurement => $"the reading of \"{Sentences.Low(item.Title)}\"",
            _ => $"what \"{Sentences.Low(item.Title)}\" showed",
        },
    };

    private static string Joined(List<string> things) =>
        things.Count < 2 ? string.Concat(things) : $"{string.Join(", ", things.Take(things.Count - 1))} and {things[^1]}";
}
