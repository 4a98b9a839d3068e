using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Host.Features.Assessments;

using Assessment = FuelHistory.Contracts.Assessment;

/// <summary>The result of the computation in the words of the record and the fault model.</summary>
internal sealed class AssessmentAnswer
{
    private const string NoEvent = "No event is entered as present. Say what the car does: as long as that is open, nothing shows which part brings it about.";

    private readonly AnswerTexts texts;
    private readonly ReasonClauses clauses;

    private AssessmentAnswer(AnswerTexts texts, AssessmentResult result)
    {
        this.texts = texts;
        clauses = new ReasonClauses(texts, result is Answered answered ? answered.Items : []);
    }

    public static Assessment Of(AssessmentResult result, Gathered gathered, DateOnly asOf, DateTimeOffset? knownAt)
    {
        AnswerTexts texts = new(gathered);
        Assessment bare = new(
            gathered.Complaint.Entry.Id, asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), knownAt, texts.Model.Id, texts.Model.Revision,
            "answered", true, [], [], [], [], 0, 0, 0, 0, 0, [], null, [], [], 0, gathered.Currency, gathered.Figures);
        var answer = new AssessmentAnswer(texts, result).Of(result, bare) with { StopNotes = Stops.Of(gathered, texts.Entry) };
        List<string> notes = [.. answer.Notes, .. Repeats.Notes(gathered)];
        return answer with { Notes = gathered.InUse.Note is { } note ? [.. notes, note] : notes };
    }

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
        Items = [.. a.Items.Select(i => new ComplaintItem(i.Kind.ToString().ToLowerInvariant(), i.Name, i.Title, i.Findings, i.Weight, i.Resolved))],
        Ranking = [.. Ranked(a)],
        Resolved = a.Resolved,
        NoneOfThese = a.NoneOfThese,
        MoreThanOne = a.MoreThanOne,
        OtherCause = a.Ranking.FirstOrDefault(r => AnswerTexts.IsOtherCause(r.Component))?.Bad ?? 0,
        AllHealthy = a.AllHealthy,
        Disagreements = [.. a.Misfits.Select(Of)],
        Flip = a.Flip is { } flip ? Of(flip) : null,
        Asks = EventTold ? a.Asks : [NoEvent, .. a.Asks],
        Slips = [.. a.SetAside.Select(s => Of(texts, s))],
        Notes = a.Notes,
        Rounds = a.Stretches,
    };

    private bool EventTold => texts.Gathered.Findings.Any(f => f.ComplaintId == texts.Gathered.Complaint.Entry.Id && f is { Event: not null, Outcome: not "absent" });

    private IEnumerable<RankedComponent> Ranked(Answered a)
    {
        SuspectSentences sentences = new(texts, a, clauses);
        return a.Ranking.Select(r => new RankedComponent(
            r.Component, r.Title, r.Bad, r.Explains, r.FixesAlone, r.Prior,
            [.. r.Modes.Select(m => new RankedMode(m.Mode, m.Title, m.Probability))],
            [.. r.Why.OrderBy(w => w.Kind is "ran-well" or "drove").Select(w => new Reason(w.Kind, w.Id, texts.Entry(w.Kind, w.Id), w.Factor, $"{clauses.Sentence(w, r.Component)}."))],
            [.. r.Sequence.Select(s => new Contracts.SequenceStep(s.Kind, s.Id, texts.Entry(s.Id), s.Bad))],
            [.. r.CausedBy.Select(texts.Cause)],
            r.History,
            r.Relieves,
            sentences.Of(r),
            r.Rough));
    }

    private Disagreement Of(Misfit m)
    {
        var with = m.With is null ? "" : $" It would fit without: {texts.Entry(m.With)}.";
        var explained = m.ExplainedBy is null ? "" : $" One fault would explain it: {texts.Cause(m.ExplainedBy)}.";
        var sentence = m.Kind == MisfitKind.Surprise
            ? $"{texts.Entry(m.Finding)}: was not to be expected ({texts.Chance(Math.Pow(2, -m.Bits))}), but nothing speaks against it."
            : $"{texts.Entry(m.Finding)}: does not fit the other findings.{with}{explained} Check the gauge and its connections, then repeat it.";
        return new Disagreement(m.Kind == MisfitKind.Surprise ? "surprise" : "conflict", m.Finding, m.Bits, m.With, m.ExplainedBy, sentence);
    }

    private static Slip Of(AnswerTexts texts, Core.Assessment.SetAside s) => new(
        s.Finding, s.Probability,
        $"{texts.Entry(s.Finding)}: taken for a slip of hand or hook-up ({texts.Chance(s.Probability)}), so it counts for next to nothing. Correct it if it was entered wrongly, or measure again.");

    private Contracts.Flip Of(Core.Assessment.Flip flip) => new(
        flip.Finding, flip.Outcome, flip.Probability, new Leader(flip.Leader, texts.Component(flip.Leader), 0),
        $"{texts.Entry(flip.Finding)}: had it been \"{flip.Title}\" ({texts.Chance(flip.Probability)} by all else), the {Records.Sentences.Low(texts.Component(flip.Leader))} would lead.");
}
