using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Assessment;
using FuelHistory.Host.Features.Records;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What to do next, in the words of the record and the fault model.</summary>
internal sealed class AdviceAnswer
{
    /// <summary>Above this the advice is to prove the repair and close.</summary>
    private const double LikelyResolved = 0.8;

    private readonly AnswerTexts texts;

    private AdviceAnswer(AnswerTexts texts) => this.texts = texts;

    public static Advice Of(AssessmentResult result, Gathered gathered, DateOnly asOf, DateTimeOffset? knownAt)
    {
        AnswerTexts texts = new(gathered);
        Advice bare = new(
            gathered.Complaint.Entry.Id, asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), knownAt, texts.Model.Id, texts.Model.Revision,
            "answered", true, [], null, gathered.Currency);
        return result switch
        {
            AdviceAnswered a => new AdviceAnswer(texts).Of(a, bare),
            Contradiction => bare with { Outcome = "contradiction" },
            _ => bare with { Outcome = "too-large", Exact = false },
        };
    }

    private Advice Of(AdviceAnswered a, Advice bare) => bare with { Exact = a.Exact, NextChecks = [.. a.NextChecks.Select(Of)], Plan = PlanOf(a) };

    private NextCheck Of(CheckAdvice c)
    {
        var trial = texts.Model.Trials.FirstOrDefault(t => c.Trial && t.Id == c.Check);
        var check = trial is null ? texts.Model.Checks.First(k => k.Id == c.Check) : null;
        return new NextCheck(
            c.Check,
            trial?.Title ?? check!.Title,
            c.Minutes,
            c.SetupMinutes,
            [.. c.SameSetup.Select(Title)],
            trial?.Tools ?? check!.Tools,
            c.ToolsAtHand,
            trial?.Hazard ?? check!.Hazard,
            trial?.Cautions ?? check!.Cautions,
            c.Cost,
            c.Saving,
            c.Saving / Math.Max(1, c.Minutes),
            c.Bits,
            c.Pays,
            [.. c.Outcomes.Select(Of)],
            c.Trial);
    }

    private CheckOutcome Of(OutcomeForecast o) =>
        new(o.Outcome, o.Title, o.Probability, [.. o.Leaders.Select(l => new Leader(l.Component, texts.Component(l.Component), l.Explains))]);

    private RepairPlan PlanOf(AdviceAnswered a)
    {
        RepairOrder order = a.Plan;
        List<RepairStep> steps =
        [
            .. order.Steps.Select(s => new RepairStep(
                s.Component, texts.Component(s.Component), s.Action, s.Minutes, s.Parts, s.Cost, s.Success, s.FixedAfter, s.RelievedAfter)),
        ];
        return new RepairPlan(steps, order.ExpectedCost, order.Spread, order.SpecialistCost, Said(a, a.NextChecks.FirstOrDefault(c => c.Pays)));
    }

    private string Said(AdviceAnswered a, CheckAdvice? best)
    {
        if (a.Plan.CheckFirst && best is not null)
        {
            var saved = best.Saving < 0.5 ? "less than 1" : string.Create(CultureInfo.InvariantCulture, $"about {best.Saving:0}");
            return $"{(best.Trial ? "Try" : "Check")} first: {Sentences.Low(Title(best.Check))} saves {saved} {texts.Gathered.Currency} of what is to be expected.";
        }

        if (a.Resolved > LikelyResolved)
        {
            return $"It is {PlainFigures.Chance(a.Resolved)} that the work done has put it right: repeat the check that failed, try what the car did, then close the complaint.";
        }

        return a.Plan.Steps.Count == 0
            ? "Neither a check nor a repair here is worth its cost: a specialist's day is the cheaper way."
            : $"No further check is worth its time: begin with {Sentences.Low(texts.Component(a.Plan.Steps[0].Component))}, then repeat the check that failed.";
    }

    private string Title(string id) => texts.Model.Trials.FirstOrDefault(t => t.Id == id)?.Title ?? Sentences.Check(texts.Model, id);
}
