using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.Assessments;

using Assessment = FuelHistory.Contracts.Assessment;

/// <summary>The ranking in the words of the record and the fault model.</summary>
internal sealed class AssessmentAnswer
{
    /// <summary>Components with less of both are left out of the short answer.</summary>
    private const double LeastExplains = 0.01, LeastBad = 0.05;

    private const string NoEvent = "No event is entered as present. Say what the car does: as long as that is open, nothing shows which part brings it about.";

    private const int Always = 3, Most = 12, Reasons = 5;

    private readonly AnswerTexts texts;
    private readonly SuspectSentences sentences;

    private AssessmentAnswer(AnswerTexts texts, Answered? answered)
    {
        this.texts = texts;
        sentences = new SuspectSentences(texts, answered);
    }

    /// <summary>All components with all reasons.</summary>
    public static Assessment Of(AssessmentResult result, Gathered gathered, DateOnly asOf, DateTimeOffset? knownAt)
    {
        AnswerTexts texts = new(gathered);
        Assessment bare = new(
            gathered.Complaint.Entry.Id, asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), knownAt, texts.Model.Id, texts.Model.Revision,
            "answered", true, [], [], [], [], 0, 0, 0, 0, 0, [], null, [], [], 0, gathered.Currency);
        var answer = new AssessmentAnswer(texts, result as Answered).Of(result, bare);
        List<string> notes = [.. answer.Notes, .. Repeats.Notes(gathered)];
        return answer with { Notes = gathered.InUse.Note is { } note ? [.. notes, note] : notes };
    }

    /// <summary>The leading components, each with its strongest reasons.</summary>
    public static Assessment Short(Assessment whole) => whole with
    {
        Ranking = [.. whole.Ranking.Where((r, place) => place < Always || r.Explains >= LeastExplains || r.Bad >= LeastBad).Take(Most)
            .Select(r => r with { Why = [.. r.Why.Take(Reasons)] })],
    };

    private Assessment Of(AssessmentResult result, Assessment bare) => result switch
    {
        Answered answered => Of(answered, bare),
        Contradiction contradiction => bare with
        {
            Outcome = "contradiction",
            Contradicting = contradiction.Findings,
            Notes = [$"These findings cannot be true together, whatever is wrong: {string.Join("; ", contradiction.Findings.Select(texts.Entry))}. Correct or void the one that is mistaken."],
        },
        _ => bare with
        {
            Outcome = "too-large",
            Exact = false,
            Notes = ["So many findings at once cannot be computed exactly here. Void events that tell little, or open a new complaint after a repair."],
        },
    };

    private Assessment Of(Answered a, Assessment bare) => bare with
    {
        Exact = a.Exact,
        LeftOut = a.LeftOut,
        Items = [.. a.Items.Select(i => new ComplaintItem(Kind(i.Kind), i.Name, i.Title, i.Findings, i.Weight, i.Resolved))],
        Ranking = [.. a.Ranking.Select(Of)],
        Resolved = a.Resolved,
        NoneOfThese = a.NoneOfThese,
        MoreThanOne = a.MoreThanOne,
        OtherCause = a.Ranking.FirstOrDefault(r => AnswerTexts.IsOtherCause(r.Component))?.Bad ?? 0,
        AllHealthy = a.AllHealthy,
        Disagreements = [.. a.Misfits.Select(Of)],
        Flip = a.Flip is { } flip ? Of(flip) : null,
        Asks = EventTold ? a.Asks : [.. a.Asks, NoEvent],
        Notes = a.Notes,
        Rounds = a.Stretches,
    };

    private bool EventTold => texts.Gathered.Findings.Any(f => f.ComplaintId == texts.Gathered.Complaint.Entry.Id && f is { Event: not null, Outcome: not "absent" });

    private RankedComponent Of(RankedFault r) => new(
        r.Component, r.Title, r.Bad, r.Explains, r.FixesAlone, r.Prior,
        [.. r.Modes.Select(m => new RankedMode(m.Mode, m.Title, m.Probability))],
        [.. r.Why.Select(Of)],
        [.. r.Sequence.Select(s => new Contracts.SequenceStep(s.Kind, s.Id, texts.Entry(s.Id), s.Bad))],
        [.. r.CausedBy.Select(texts.Cause)],
        r.History,
        r.Relieves,
        sentences.Of(r));

    private Reason Of(WhyFactor w)
    {
        var text = texts.Entry(w.Kind, w.Id);
        return new Reason(w.Kind, w.Id, text, w.Factor, $"{text}: speaks {PlainFigures.Strength(w.Factor)} {(w.Factor >= 1 ? "for" : "against")} it");
    }

    private Disagreement Of(Misfit m)
    {
        var with = m.With is null ? "" : $" It would fit without: {texts.Entry(m.With)}.";
        var explained = m.ExplainedBy is null ? "" : $" One fault would explain it: {texts.Cause(m.ExplainedBy)}.";
        var sentence = m.Kind == MisfitKind.Surprise
            ? $"{texts.Entry(m.Finding)}: was not to be expected ({PlainFigures.Chance(Math.Pow(2, -m.Bits))}), but nothing speaks against it."
            : $"{texts.Entry(m.Finding)}: does not fit the other findings.{with}{explained} Check the gauge and its connections, then repeat it.";
        return new Disagreement(m.Kind == MisfitKind.Surprise ? "surprise" : "conflict", m.Finding, m.Bits, m.With, m.ExplainedBy, sentence);
    }

    private Contracts.Flip Of(Core.Assessment.Flip flip) => new(
        flip.Finding, flip.Outcome, flip.Probability, new Leader(flip.Leader, texts.Component(flip.Leader), 0),
        $"{texts.Entry(flip.Finding)}: had it been \"{flip.Title}\" ({PlainFigures.Chance(flip.Probability)} by all else), {Records.Sentences.Low(texts.Component(flip.Leader))} would lead.");

    private static string Kind(ItemKind kind) => kind switch { ItemKind.Event => "event", ItemKind.Check => "check", _ => "part" };
}
