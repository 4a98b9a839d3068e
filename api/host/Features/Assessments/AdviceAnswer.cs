using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What to do next, in the words of the fault model.</summary>
internal sealed class AdviceAnswer(AnswerTexts texts)
{
    /// <summary>Above this the advice is to prove the repair and close.</summary>
    private const double LikelyResolved = 0.8;

    public static Advice Of(AssessmentResult result, Gathered gathered, DateOnly asOf, DateTimeOffset? knownAt)
    {
        AnswerTexts texts = new(gathered);
        Advice bare = new(
            gathered.Complaint.Entry.Id, asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), knownAt, texts.Model.Id, texts.Model.Revision, "answered", true, [], null,
            gathered.Currency, gathered.Figures)
        { StopNotes = Stops.Of(gathered, texts.Entry) };
        AdviceAnswer words = new(texts);
        return result switch
        {
            AdviceAnswered a => bare with { Exact = a.Exact, NextChecks = [.. a.NextChecks.Select(words.Of)], Plan = words.Plan(a) },
            Contradiction => bare with { Outcome = "contradiction" },
            _ => bare with { Outcome = "too-large", Exact = false },
        };
    }

    private NextCheck Of(CheckAdvice c)
    {
        var trial = c.Trial ? texts.Model.Trials.First(t => t.Id == c.Check) : null;
        var check = c.Trial ? null : texts.Model.Checks.First(k => k.Id == c.Check);
        return new NextCheck(
            c.Check, trial?.Title ?? check!.Title, c.Minutes, c.SetupMinutes, [.. c.SameSetup.Select(s => Sentences.Check(texts.Model, s))], trial?.Tools ?? check!.Tools, c.ToolsAtHand,
            trial?.Hazard ?? check!.Hazard, trial?.Cautions ?? check!.Cautions, c.Cost, c.Saving, c.SavingPerMinute, c.Bits, c.Pays,
            [.. c.Outcomes.Select(o => new CheckOutcome(o.Outcome, o.Title, o.Probability, [.. o.Leaders.Select(l => new Leader(l.Component, texts.Component(l.Component), l.Explains))]))],
            c.Trial, c.Repeats, Why(c));
    }

    /// <summary>Why it comes first, whatever it saves.</summary>
    private string Why(CheckAdvice c) => c.Repeats is string failed
        ? $"It failed before the repair ({texts.Entry(failed)}); only this shows whether the repair helped."
        : c.Before is string component ? $"It shows whether this is bad: {texts.Component(component)}. That is not touched before." : "";

    private RepairPlan Plan(AdviceAnswered a)
    {
        RepairOrder order = a.Plan;
        RepairStep[] steps = [.. order.Steps.Select(s => new RepairStep(
            s.Component, texts.Component(s.Component), s.Action, s.Minutes, s.Parts, s.Cost, s.Success, s.FixedAfter, s.RelievedAfter)
        {
            With = [.. s.With.Select(w => new StepPart(w.Component, texts.Component(w.Component), w.Action))],
            LookFirst = s.LookFirst is null ? null : Sentences.Check(texts.Model, s.LookFirst),
        })];
        return new RepairPlan(steps, order.ExpectedCost, order.Spread, order.SpecialistCost, Sentence(a, order, a.NextChecks.FirstOrDefault(c => c.Pays)));
    }

    private string Sentence(AdviceAnswered a, RepairOrder order, CheckAdvice? best)
    {
        if (best?.Repeats is string failed)
        {
            return (a.Resolved > LikelyResolved ? $"It is {texts.Chance(a.Resolved)} that the complaint is resolved; to prove it, repeat" : "Repeat")
                + $" the check that failed: {Sentences.Check(texts.Model, best.Check)} (last: {texts.Entry(failed)}).";
        }

        if (best is { Before: string component, Saving: < 0.5 })
        {
            return $"Look first: {Sentences.Check(texts.Model, best.Check)}, before this is touched: {texts.Component(component)}.";
        }

        if (order.CheckFirst && best is not null)
        {
            var saving = best.Saving < 0.5 ? "less than 1" : FormattableString.Invariant($"about {best.Saving:0}");
            var title = best.Trial ? Sentences.TrialTitle(texts.Model, best.Check) : Sentences.Check(texts.Model, best.Check);
            return $"{(best.Trial ? "Try" : "Check")} first: {title} saves {saving} {texts.Gathered.Currency} of what is to be expected.";
        }

        if (a.Resolved > LikelyResolved)
        {
            return $"It is {texts.Chance(a.Resolved)} that the work done has put it right: repeat the check that failed and look for what the car did, then close the complaint.";
        }

        return order.Steps.Count == 0
            ? "Neither a check nor a repair here is worth its cost: a specialist's day is the cheaper way."
            : $"No further check is worth its time: begin with the {Parts(order.Steps[0])}, then repeat the check that failed.";
    }

    private string Parts(PlannedRepair step) => string.Join(" and ", step.With.Select(w => w.Component).Prepend(step.Component).Select(id => Sentences.Low(texts.Component(id))));
}
