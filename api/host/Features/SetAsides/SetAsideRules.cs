using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.SetAsides;

public sealed class SetAsideRules(ComplaintStore complaints)
{
    /// <summary>The reason that ends by itself.</summary>
    public const string NotToday = "not-today";

    public Refused? Check(Step step, NewSetAside input, string complaintId)
    {
        var faults = step.Faults;
        Proposal(step, input);
        faults.OneOf("/reason", input.Reason, "not-fitted", "no-tool", NotToday);
        faults.Text("/note", input.Note, Lengths.Note);
        Day(step, input);
        return complaints.Shut(step.Session.Connection, complaintId);
    }

    /// <summary>The last day on which it counts; null where it counts until it is voided.</summary>
    public static string? Until(Step step, NewSetAside input) =>
        input.Reason != NotToday ? null : input.Until ?? step.Session.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static void Proposal(Step step, NewSetAside input)
    {
        if (input is { Check: null, Trial: null } or { Check: not null, Trial: not null })
        {
            step.Faults.Required("/check", "One thing is set aside at a time: give check or trial.");
        }

        if (input.Check is { } check)
        {
            step.Faults.Known("/check", "check", check, step.Car!.Model.Checks.Select(c => c.Id));
        }

        if (input.Trial is { } trial)
        {
            step.Faults.Known("/trial", "trial", trial, step.Car!.Model.Trials.Select(t => t.Id));
        }
    }

    private static void Day(Step step, NewSetAside input)
    {
        if (input.Until is not { } text)
        {
            return;
        }

        if (input.Reason != NotToday)
        {
            step.Faults.Add("/until", Problems.Unsuitable, $"until belongs to \"{NotToday}\"; \"{input.Reason}\" counts until the entry is voided. Leave it out.");
        }
        else if (!RoughDate.TryParse(text, out var date, out var why))
        {
            step.Faults.Add("/until", Problems.ImpossibleDate, why);
        }
        else if (!date.IsDay)
        {
            step.Faults.Add("/until", Problems.ImpossibleDate, $"until \"{text}\" is not a day; write it in full (2026-05-01).");
        }
        else if (date.Earliest < step.Session.Today)
        {
            step.Faults.Add("/until", Problems.ImpossibleDate, $"until {text} is over already; today is {step.Session.Today:yyyy-MM-dd}. Give today or a later day.");
        }
    }
}
