using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Http;

namespace FuelHistory.Host.Features.Assessments;

using Assessment = FuelHistory.Contracts.Assessment;

/// <summary>The result of the computation in the words of the record and the fault model.</summary>
internal sealed class AssessmentAnswer
{
    private const string Elsewhere = "elsewhere";

    private const string NoEvent = "No event is entered as present. Say what the car does: as long as that is open, nothing shows which part brings it about.";

    private readonly Gathered gathered;
    private readonly FaultModel model;
    private readonly Dictionary<string, string> texts;

    private AssessmentAnswer(Gathered gathered)
    {
        this.gathered = gathered;
        model = gathered.Car.Model;
        texts = Texts(gathered);
    }

    public static Assessment Of(AssessmentResult result, Gathered gathered, DateOnly asOf, DateTimeOffset? knownAt)
    {
        AssessmentAnswer words = new(gathered);
        Assessment bare = new(
            gathered.Complaint.Entry.Id, asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), knownAt, words.model.Id, words.model.Revision,
            "answered", true, [], [], [], [], 0, 0, 0, 0, 0, [], null, [], [], 0, gathered.Currency);
        var answer = words.Of(result, bare) with { StopNotes = Stops.Of(gathered, words.Text) };
        return gathered.InUse.Note is { } note ? answer with { Notes = [.. answer.Notes, note] } : answer;
    }

    /// <summary>What the record's entries say, by their ids.</summary>
    public static Dictionary<string, string> Texts(Gathered gathered) =>
        gathered.Findings.Select(f => (f.Entry.Id, f.Text))
            .Concat(gathered.Work.Select(w => (w.Entry.Id, $"{Sentences.Of(w, gathered.Car.Model)}, {Sentences.When(w.Date)}")))
            .Concat(gathered.LayUps.Select(l => (l.Entry.Id, Sentences.Of(l))))
            .Concat(gathered.Incidents.Select(i => (i.Entry.Id, Sentences.Of(i, gathered.Car.Model))))
            .ToDictionary();

    private Assessment Of(AssessmentResult result, Assessment bare) => result switch
    {
        Answered answered => Of(answered, bare),
        Contradiction contradiction => bare with
        {
            Outcome = "contradiction",
            Contradicting = contradiction.Findings,
            Notes = [$"These findings cannot be true together, whatever is wrong: {string.Join("; ", contradiction.Findings.Select(Text))}. Correct or void the one that is mistaken."],
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
        Ranking = [.. a.Ranking.Select(r => Of(a, r))],
        Resolved = a.Resolved,
        NoneOfThese = a.NoneOfThese,
        MoreThanOne = a.MoreThanOne,
        OtherCause = a.Ranking.FirstOrDefault(r => r.Component == Elsewhere)?.Bad ?? 0,
        AllHealthy = a.AllHealthy,
        Disagreements = [.. a.Misfits.Select(Of)],
        Flip = a.Flip is { } flip ? Of(flip) : null,
        Asks = EventTold ? a.Asks : [NoEvent, .. a.Asks],
        SetAside = [.. a.SetAside.Select(Of)],
        Notes = a.Notes,
        Rounds = a.Stretches,
    };

    private bool EventTold => gathered.Findings.Any(f => f.ComplaintId == gathered.Complaint.Entry.Id && f is { Event: not null, Outcome: not "absent" });

    private RankedComponent Of(Answered a, RankedFault r) => new(
        r.Component, r.Title, r.Bad, r.Explains, r.FixesAlone, r.Prior,
        [.. r.Modes.Select(m => new RankedMode(m.Mode, m.Title, m.Probability))],
        [.. r.Why.Select(Of)],
        [.. r.Sequence.Select(s => new Contracts.SequenceStep(s.Kind, s.Id, Text(s.Id), s.Bad))],
        [.. r.CausedBy.Select(Cause)],
        r.History,
        r.Relieves,
        SuspectSentences.Of(a, r, model, Text));

    private Reason Of(WhyFactor w)
    {
        var text = w.Id is not null && texts.TryGetValue(w.Id, out var known) ? known : w.Kind switch
        {
            "ran-well" => "It ran well before the complaint began",
            "drove" => "The car still drove",
            "complaint" => "What was found under an earlier complaint",
            _ when w.Id == "onset" => "How the trouble came about",
            _ => w.Kind,
        };
        var times = (w.Factor >= 1 ? w.Factor : 1 / w.Factor).ToString("0.0", CultureInfo.InvariantCulture);
        return new Reason(w.Kind, w.Id, text, w.Factor, w.Factor >= 1 ? $"{text}: speaks for it, odds times {times}" : $"{text}: speaks against it, odds divided by {times}");
    }

    private Disagreement Of(Misfit m)
    {
        var with = m.With is null ? "" : $" It would fit without: {Text(m.With)}.";
        var explained = m.ExplainedBy is null ? "" : $" One fault would explain it: {Cause(m.ExplainedBy)}.";
        var sentence = m.Kind == MisfitKind.Surprise
            ? string.Create(CultureInfo.InvariantCulture, $"{Text(m.Finding)}: was not to be expected ({Chance.Of(Math.Pow(2, -m.Bits))}), but nothing speaks against it.")
            : string.Create(CultureInfo.InvariantCulture, $"{Text(m.Finding)}: does not fit the other findings.{with}{explained} Check the gauge and its connections, then repeat it.");
        return new Disagreement(m.Kind == MisfitKind.Surprise ? "surprise" : "conflict", m.Finding, m.Bits, m.With, m.ExplainedBy, sentence);
    }

    private Contracts.SetAside Of(Core.Assessment.SetAside s) => new(
        s.Finding, s.Probability,
        string.Create(CultureInfo.InvariantCulture, $"{Text(s.Finding)}: taken for a slip of hand or hook-up ({Math.Min(0.999, s.Probability):0.0 %} likely), so it counts for next to nothing. Correct it if it was entered wrongly, or measure again."));

    private Contracts.Flip Of(Core.Assessment.Flip flip) => new(
        flip.Finding, flip.Outcome, flip.Probability, new Leader(flip.Leader, Component(flip.Leader), 0),
        string.Create(CultureInfo.InvariantCulture, $"{Text(flip.Finding)}: had it been \"{flip.Title}\" ({Chance.Of(flip.Probability)} given the other findings), {Component(flip.Leader)} would lead."));

    private string Text(string id) => texts.GetValueOrDefault(id, id);

    private string Component(string id) => id == Elsewhere ? model.Elsewhere.Title : Sentences.Component(model, id);

    private string Cause(string of) => of.Split('.') is [var component, var mode]
        ? $"{Component(component)}: {model.Components.FirstOrDefault(c => c.Id == component)?.Modes.FirstOrDefault(m => m.Id == mode)?.Title ?? mode}"
        : of;
}
