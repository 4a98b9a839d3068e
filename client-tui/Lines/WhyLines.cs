using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>Why a component stands where it stands: the host's sentences with their factors.</summary>
internal static class WhyLines
{
    private const int FactorWidth = 7;

    /// <summary>Heading and one line per reason, strongest first.</summary>
    public static IReadOnlyList<Line> Short(RankedComponent ranked, int width, Signs signs) =>
    [
        LikelyLines.Rule($"Why: {Clean.Of(ranked.Title, signs)}", width, signs),
        .. Strongest(ranked).Select(reason => Line.Of(Cells.Cut("  " + Cells.Fit(Figures.Factor(reason.Factor, signs), FactorWidth, signs) + Clean.Of(reason.Sentence, signs), width, signs))),
        Line.Of(Cells.Cut("  " + Clean.Of(ranked.History, signs), width, signs), Role.Faint),
    ];

    public static IReadOnlyList<Line> Full(Assessment assessment, RankedComponent ranked, int width, Signs signs)
    {
        List<Line> lines =
        [
            .. Wrapped($"Putting it right, and nothing else, ends the complaint with {Figures.Percent(ranked.Cure)}. It is bad with {Figures.Percent(ranked.Bad)}; before this complaint {Figures.Percent(ranked.Prior)}.", width, signs),
            .. Wrapped(ranked.History, width, signs),
            LikelyLines.Rule("How it may be bad", width, signs),
            .. ranked.Modes.Select(mode => Line.Of(Cells.Cut($"  {Cells.Fit(Figures.Percent(mode.Probability), FactorWidth, signs)}{Clean.Of(mode.Title, signs)}", width, signs))),
            LikelyLines.Rule("What speaks for and against it", width, signs),
        ];
        foreach (var reason in Strongest(ranked))
            lines.AddRange(Cells.Wrap(Clean.Of(reason.Sentence.Contains(reason.Text, StringComparison.Ordinal) ? reason.Sentence : $"{reason.Text}: {reason.Sentence}", signs), width - FactorWidth - 4)
                .Select((text, at) => Line.Of("  " + Cells.Fit(at == 0 ? Figures.Factor(reason.Factor, signs) : "", FactorWidth, signs) + text)));
        Section("Ask what caused it", ranked.CausedBy);
        Section("Findings that do not fit", [.. assessment.Disagreements.Select(each => each.Sentence)]);
        Section("Still asked for", assessment.Asks);
        Section("Cannot all be true", assessment.Contradicting);
        Section("Left out", assessment.LeftOut);
        Section("Notes", assessment.Notes);
        lines.AddRange(Wrapped($"As of {assessment.AsOf}, fault model {assessment.FaultModel} revision {assessment.FaultModelRevision}, {(assessment.Exact ? "exact" : "not exact")}.", width, signs));
        return lines;

        void Section(string title, IReadOnlyList<string> sentences)
        {
            if (sentences.Count == 0) return;
            lines.Add(LikelyLines.Rule(title, width, signs));
            lines.AddRange(sentences.SelectMany(sentence => Wrapped(sentence, width, signs)));
        }
    }

    private static IOrderedEnumerable<Reason> Strongest(RankedComponent ranked) => ranked.Why.OrderByDescending(reason => Math.Abs(Math.Log(Math.Max(1e-9, reason.Factor))));

    private static IEnumerable<Line> Wrapped(string text, int width, Signs signs) => Cells.Wrap(Clean.Of(text, signs), width - 4).Select(line => Line.Of("  " + line));
}
