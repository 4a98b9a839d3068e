using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>The day as of which is assessed; only whole days will do.</summary>
internal static class AssessedDay
{
    /// <returns>Null where none is given, or with a fault.</returns>
    public static DateOnly? Read(Faults faults, string pointer, string? text)
    {
        if (text is null)
        {
            return null;
        }

        if (!RoughDate.TryParse(text, out var date, out var why))
        {
            faults.Add(pointer, Problems.ImpossibleDate, why);
        }
        else if (!date.IsDay)
        {
            faults.Add(pointer, Problems.ImpossibleDate, $"asOf \"{text}\" is not a day; write it in full (2026-05-01).");
        }
        else
        {
            return date.Earliest;
        }

        return null;
    }

    /// <summary>A day that was asked for lies in the time of the complaint, up to today.</summary>
    public static void Fits(Faults faults, string pointer, DateOnly day, Complaint complaint, Days days)
    {
        if (day > days.Latest)
        {
            faults.Add(pointer, Problems.InFuture, $"asOf {day:yyyy-MM-dd} has not come yet (today is {days.Today:yyyy-MM-dd}); leave it out for today.");
        }
        else if (day < RoughDate.Parse(complaint.Since).Earliest)
        {
            faults.Add(pointer, Problems.BeforeComplaint, $"asOf {day:yyyy-MM-dd} lies before the complaint \"{complaint.Title}\" began ({complaint.Since}), so there was nothing to assess; take a later day, or correct since.");
        }
    }
}
