using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What a mechanic would say of a suspect, in one or two sentences: the reason that matters most first, then what it leaves open.</summary>
internal static class SuspectSentences
{
    /// <summary>Of an item that it would relieve with less than this it is said that it leaves it.</summary>
    private const double Leaves = 0.02;

    /// <summary>A suspect that explains less than this gets no sentence about what it leaves.</summary>
    private const double Suspected = 0.05;

    /// <param name="text">A recorded entry in words, by its id.</param>
    public static string Of(Answered answer, RankedFault ranked, FaultModel model, Func<string, string> text)
    {
        string[] said = [Reason(ranked, text), Left(answer, ranked), History(answer, ranked, model)];
        return string.Join(" ", said.Where(s => s.Length > 0));
    }

    private static string Reason(RankedFault ranked, Func<string, string> text)
    {
        if (ranked.Why.Count == 0 || ranked.Why[0] is not { } main)
        {
            return $"Nothing found so far speaks for it or against it; {Chance.Of(ranked.Bad)} it is bad.";
        }

        var entry = main.Id is { } id ? text(id) : "";
        return (main.Kind, main.Factor >= 1) switch
        {
            ("finding", _) when main.Id == "onset" => main.Factor >= 1 ? "It is how such a fault comes about." : "Such a fault comes about in another way.",
            ("finding", true) => $"It would explain this: {entry}.",
            ("finding", false) => $"It does not go with this: {entry}.",
            ("work", true) => $"What was done speaks for it: {entry}.",
            ("work", false) => $"It is less likely since this was done: {entry}.",
            ("lay-up", _) => $"The time in storage speaks {For(main)} it: {entry}.",
            ("incident", _) => $"What happened to the car speaks {For(main)} it: {entry}.",
            ("complaint", _) => $"What was found under an earlier complaint speaks {For(main)} it.",
            ("ran-well", _) => "The car ran well before, and it would have been noticed.",
            _ => $"{entry} speaks {For(main)} it.",
        };
    }

    private static string For(WhyFactor why) => why.Factor >= 1 ? "for" : "against";

    /// <summary>Items that would stand though this were put right.</summary>
    private static string Left(Answered answer, RankedFault ranked)
    {
        if (ranked.Explains < Suspected || answer.Items.Count < 2)
        {
            return "";
        }

        RankedItem[] ended = [.. answer.Items.Where((_, i) => ranked.Relieves[i] >= Leaves)], left = [.. answer.Items.Where((_, i) => ranked.Relieves[i] < Leaves)];
        return left.Length == 0 || ended.Length == 0 ? ""
            : $"It explains {Names(ended)}; nothing here links it to {Names(left)}.";
    }

    private static string Names(RankedItem[] items) => string.Join(" and ", items.Select(i => $"\"{i.Title}\""));

    private static string History(Answered answer, RankedFault ranked, FaultModel model)
    {
        if (ranked.Component == "elsewhere")
        {
            return "It stands for a cause that this model does not have.";
        }

        if (!ranked.History.StartsWith("fitted", StringComparison.Ordinal))
        {
            return ranked.Bad > ranked.Prior ? "Nothing is recorded of a new one." : "";
        }

        string? other = answer.Ranking.FirstOrDefault(r => r.Component != ranked.Component && r.Component != "elsewhere" && r.Explains > ranked.Explains
            && !r.History.StartsWith("fitted", StringComparison.Ordinal))?.Component;
        return other is null ? $"It was {ranked.History}; a new part can be bad, too."
            : $"It was {ranked.History}, so it is less likely than {Title(model, other)}, of which nothing is known.";
    }

    private static string Title(FaultModel model, string component)
    {
        string title = model.Components.First(c => c.Id == component).Title;
        return "the " + char.ToLowerInvariant(title[0]) + title[1..];
    }
}
