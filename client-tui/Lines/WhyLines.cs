using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>Why a component stands where it stands: the host's sentences with their factors.</summary>
internal static class WhyLines
{
    private const int FactorWidth = 9, ShareWidth = 7;

    /// <summary>Heading and one line per reason, strongest first.</summary>
    public static IReadOnlyList<Line> Short(RankedComponent ranked, string style, int width, Signs signs) =>
    [
        LikelyLines.Rule($"Why: {Clean.Of(ranked.Title, signs)}", width, signs),
        .. Strongest(ranked.Why).Select(reason => Line.Of(Cells.Cut($"  {Factor(reason, style, signs)}{(For(reason) ? "for" : "against"),-8}{Clean.Of(reason.Text, signs)}", width, signs))),
        Line.Of(Cells.Cut("  " + Clean.Of(ranked.History, signs), width, signs), Role.Faint),
    ];

    public static IReadOnlyList<Line> Full(Assessment assessment, RankedComponent ranked, int width, Signs signs)
    {
        List<Line> lines =
        [
            .. ranked.Sentence.Length > 0 ? Wrapped(ranked.Sentence, width, signs, Role.Title) : [],
            .. Wrapped($"That it is bad: before any finding {PlainFigures.Chance(ranked.Prior, assessment.Figures)}, now {PlainFigures.Chance(ranked.Bad, assessment.Figures)}.", width, signs),
            .. Wrapped($"Putting it right, and nothing else, ends {PlainFigures.Share(ranked.Explains, assessment.Figures)} of the complaint; {PlainFigures.Chance(ranked.FixesAlone, assessment.Figures)} that it fixes all of it alone.", width, signs),
            .. Wrapped(ranked.History, width, signs),
            .. Items(assessment, ranked, width, signs),
            .. Reasons("What speaks for it", ranked.Why.Where(For), assessment.Figures, width, signs),
            .. Reasons("What speaks against it", ranked.Why.Where(reason => !For(reason)), assessment.Figures, width, signs),
            .. SequenceLines.Of(ranked, assessment.Figures, width, signs),
            LikelyLines.Rule("How it may be bad", width, signs),
            .. ranked.Modes.Select(mode => Line.Of(Cells.Cut($"  {Cells.Fit(PlainFigures.Brief(mode.Probability, assessment.Figures), ShareWidth, signs)}{Clean.Of(mode.Title, signs)}", width, signs))),
        ];
        Section("Ask what caused it", ranked.CausedBy);
        Section("Findings that do not fit", [.. Disagreeing.Conflicts(assessment).Select(each => each.Sentence)]);
        Section("Rare findings that nothing speaks against", [.. Disagreeing.Surprises(assessment).Select(each => each.Sentence)]);
        Section("What would put another first", assessment.Flip is { } flip ? [flip.Sentence] : []);
        Section("Still asked for", assessment.Asks);
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

    /// <summary>What of the complaint it would end, item by item, where there are several.</summary>
    private static IEnumerable<Line> Items(Assessment assessment, RankedComponent ranked, int width, Signs signs) => assessment.Items.Count < 2 ? []
        : assessment.Items.Zip(ranked.Relieves).Select(pair => Line.Of(Cells.Cut($"  {Cells.Fit(PlainFigures.Brief(pair.Second, assessment.Figures), ShareWidth, signs)}{Clean.Of(pair.First.Title, signs)}", width, signs)))
            .Prepend(LikelyLines.Rule("What it would end", width, signs));

    /// <summary>One side of the reasons, strongest first, each with the factor by which it moves the odds.</summary>
    private static IEnumerable<Line> Reasons(string title, IEnumerable<Reason> reasons, string style, int width, Signs signs)
    {
        yield return LikelyLines.Rule(title, width, signs);
        var any = false;
        foreach (var reason in Strongest(reasons))
        {
            any = true;
            var pieces = Cells.Wrap(Clean.Of(reason.Text, signs), width - FactorWidth - 4);
            for (var at = 0; at < pieces.Count; at++) yield return Line.Of("  " + (at == 0 ? Factor(reason, style, signs) : new string(' ', FactorWidth)) + pieces[at]);
        }
        if (!any) yield return Line.Of("  nothing", Role.Faint);
    }

    private static string Factor(Reason reason, string style, Signs signs) => Cells.Fit(Figures.Factor(reason.Factor, style, signs), FactorWidth, signs);

    private static bool For(Reason reason) => reason.Factor >= 1;

    private static IOrderedEnumerable<Reason> Strongest(IEnumerable<Reason> reasons) => reasons.OrderByDescending(reason => Math.Abs(Math.Log(Math.Max(1e-9, reason.Factor))));

    private static IEnumerable<Line> Wrapped(string text, int width, Signs signs, Role role = Role.Plain) => Cells.Wrap(Clean.Of(text, signs), width - 4).Select(line => Line.Of("  " + line, role));
}
