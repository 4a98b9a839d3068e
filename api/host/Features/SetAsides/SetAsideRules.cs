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
        faults.Known("/check", "check", input.Check, step.Car!.Model.Checks.Select(c => c.Id));
        faults.OneOf("/reason", input.Reason, "not-fitted", "no-tool", NotToday);
        faults.Text("/note", input.Note, Lengths.Note);
        Day(step, input);
        return complaints.Shut(step.Session.Connection, complaintId);
    }

    /// <summary>The last day on which it counts; null where it counts until it is voided.</summary>
    public static string? Until(Step step, NewSetAside input) =>
        input.Reason != NotToday ? null : input.Until ?? step.Session.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

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
