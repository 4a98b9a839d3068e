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

    /// <summary>Above this the advice is to prove the repair and close.</summary>
    private const double LikelyGone = 0.8;

    private readonly Gathered gathered;
    private readonly FaultModel model;
    private readonly Dictionary<string, string> texts;

    private AssessmentAnswer(Gathered gathered)
    {
        this.gathered = gathered;
        model = gathered.Car.Model;
        texts = gathered.Findings.Select(f => (f.Entry.Id, f.Text))
            .Concat(gathered.Work.Select(w => (w.Entry.Id, $"{Sentences.Of(w, model)}, {w.Date}")))
            .Concat(gathered.LayUps.Select(l => (l.Entry.Id, Sentences.Of(l))))
            .Concat(gathered.Incidents.Select(i => (i.Entry.Id, Sentences.Of(i, model))))
            .ToDictionary();
    }

    public static Assessment Of(AssessmentResult result, Gathered gathered, DateOnly asOf, DateTimeOffset? knownAt)
    {
        AssessmentAnswer words = new(gathered);
        Assessment bare = new(
            gathered.Complaint.Entry.Id, asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), knownAt, words.model.Id, words.model.Revision,
            "answered", true, [], [], [], 0, 0, 0, 0, 0, [], null, [], null, [], [], 0, gathered.Currency);
        var answer = words.Of(result, bare);
        return gathered.InUse.Note is { } note ? answer with { Notes = [.. answer.Notes, note] } : answer;
    }

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
            Notes = ["So many findings at once cannot be computed exactly here. Void symptoms that tell little, or open a new complaint after a repair."],
        },
    };

    private Assessment Of(Answered a, Assessment bare) => bare with
    {
        Exact = a.Exact,
        LeftOut = a.LeftOut,
        Ranking = [.. a.Ranking.Select(Of)],
        Gone = a.Gone,
        NoneOfThese = a.NoneOfThese,
        MoreThanOne = a.MoreThanOne,
        Elsewhere = a.Ranking.FirstOrDefault(r => r.Component == Elsewhere)?.Bad ?? 0,
        AllHealthy = a.AllHealthy,
        NextChecks = [.. a.NextChecks.Select(Of)],
        Plan = PlanOf(a),
        Disagreements = [.. a.Misfits.Select(Of)],
        Flip = a.Flip is { } flip ? Of(flip) : null,
        SetAside = [.. a.SetAside.Select(Of)],
        Asks = a.Asks,
        Notes = a.Notes,
        Stretches = a.Stretches,
    };

    private RankedComponent Of(RankedFault r) => new(
        r.Component, r.Title, r.Bad, r.Cure, r.Prior,
        [.. r.Modes.Select(m => new RankedMode(m.Mode, m.Title, m.Probability))],
        [.. r.Why.Select(Of)],
        [.. r.Sequence.Select(s => new Contracts.SequenceStep(s.Kind, s.Id, Text(s.Id), s.Bad))],
        [.. r.CausedBy.Select(Cause)],
        r.History);

    private Reason Of(WhyFactor w)
    {
        var text = w.Id is not null && texts.TryGetValue(w.Id, out var known) ? known : w.Kind switch
        {
            "ran-well" => "It ran well before the complaint began",
            "complaint" => "What was found under an earlier complaint",
            _ => w.Kind,
        };
        var times = (w.Factor >= 1 ? w.Factor : 1 / w.Factor).ToString("0.0", CultureInfo.InvariantCulture);
        return new Reason(w.Kind, w.Id, text, w.Factor, w.Factor >= 1 ? $"{text}: speaks for it, odds times {times}" : $"{text}: speaks against it, odds divided by {times}");
    }

    private NextCheck Of(CheckAdvice c)
    {
        var check = model.Checks.First(k => k.Id == c.Check);
        return new NextCheck(
            check.Id, check.Title, c.Minutes, c.SetupMinutes, [.. c.SameSetup.Select(s => Sentences.Check(model, s))], check.Tools, c.ToolsAtHand, check.Hazard, check.Cautions, c.Cost, c.Saving,
            c.Saving / Math.Max(1, c.Minutes), c.Bits, c.Pays,
            [.. c.Outcomes.Select(o => new CheckOutcome(o.Outcome, o.Title, o.Probability, [.. o.Leaders.Select(l => new Leader(l.Component, Component(l.Component), l.Cure))]))]);
    }

    private RepairPlan PlanOf(Answered a)
    {
        RepairOrder order = a.Plan;
        var steps = order.Steps.Select(s => new RepairStep(s.Component, Component(s.Component), s.Action, s.Minutes, s.Parts, s.Cost, s.Success, s.GoneAfter)).ToList();
        return new RepairPlan(steps, order.ExpectedCost, order.Spread, order.SpecialistCost, Advice(a, order, a.NextChecks.FirstOrDefault(c => c.Pays)));
    }

    private string Advice(Answered a, RepairOrder order, CheckAdvice? best)
    {
        if (order.CheckFirst && best is not null)
        {
            return string.Create(CultureInfo.InvariantCulture, $"Check first: {Sentences.Check(model, best.Check)} saves {(best.Saving < 0.5 ? "less than 1" : FormattableString.Invariant($"about {best.Saving:0}"))} {gathered.Currency} of what is to be expected.");
        }

        if (a.Gone > LikelyGone)
        {
            return string.Create(CultureInfo.InvariantCulture, $"The complaint is gone already with {a.Gone:0 %}: repeat the check that failed and ask for its symptoms, then close it.");
        }

        return order.Steps.Count == 0
            ? "Neither a check nor a repair here is worth its cost: a specialist's day is the cheaper way."
            : $"No further check is worth its time: begin with {Component(order.Steps[0].Component)}, then repeat the check that failed.";
    }

    private Disagreement Of(Misfit m)
    {
        var with = m.With is null ? "" : $" It would fit without: {Text(m.With)}.";
        var explained = m.ExplainedBy is null ? "" : $" One fault would explain it: {Cause(m.ExplainedBy)}.";
        var sentence = m.Kind == MisfitKind.Surprise
            ? string.Create(CultureInfo.InvariantCulture, $"{Text(m.Finding)}: was not to be expected ({Math.Pow(2, -m.Bits):0.0 %}), but nothing speaks against it.")
            : string.Create(CultureInfo.InvariantCulture, $"{Text(m.Finding)}: does not fit the other findings ({m.Bits:0.0} bits).{with}{explained} Check the gauge and its connections, then repeat it.");
        return new Disagreement(m.Kind == MisfitKind.Surprise ? "surprise" : "conflict", m.Finding, m.Bits, m.With, m.ExplainedBy, sentence);
    }

    private Contracts.SetAside Of(Core.Assessment.SetAside s) => new(
        s.Finding, s.Probability,
        string.Create(CultureInfo.InvariantCulture, $"{Text(s.Finding)}: taken for a slip of hand or hook-up ({Math.Min(0.999, s.Probability):0.0 %} likely), so it counts for next to nothing. Correct it if it was entered wrongly, or measure again."));

    private Contracts.Flip Of(Core.Assessment.Flip flip) => new(
        flip.Finding, flip.Outcome, flip.Probability, new Leader(flip.Leader, Component(flip.Leader), 0),
        string.Create(CultureInfo.InvariantCulture, $"{Text(flip.Finding)}: had it been \"{flip.Title}\" ({flip.Probability:0.0 %} likely by all else), {Component(flip.Leader)} would lead."));

    private string Text(string id) => texts.GetValueOrDefault(id, id);

    private string Component(string id) => id == Elsewhere ? model.Elsewhere.Title : Sentences.Component(model, id);

    private string Cause(string of) => of.Split('.') is [var component, var mode]
        ? $"{Component(component)}: {model.Components.FirstOrDefault(c => c.Id == component)?.Modes.FirstOrDefault(m => m.Id == mode)?.Title ?? mode}"
        : of;
}
