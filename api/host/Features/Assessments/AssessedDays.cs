using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>As of which day, and with what was recorded by which instant, a complaint is to be assessed.</summary>
public sealed class AssessedDays(SqliteFile file, ComplaintStore complaints, TimeProvider clock)
{
    public (DateOnly Day, DateTimeOffset? Instant) When(Faults faults, string complaintId, string? asOf, string? knownAt)
    {
        DateOnly today = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        DateOnly day = AssessedDay.Read(faults, "asOf", asOf) ?? today;
        if (asOf is not null && faults.None)
        {
            using var connection = file.Open();
            if (complaints.Versions(connection, complaintId) is [var complaint, ..])
            {
                AssessedDay.Fits(faults, "asOf", day, complaint, Days.Any(clock.GetUtcNow(), today));
            }
        }

        if (knownAt is null)
        {
            return (day, null);
        }

        // a plus sign that was not escaped arrives as a space
        if (!Instants.TryRead(knownAt.Replace(' ', '+'), out var instant))
        {
            faults.Add("knownAt", Problems.ImpossibleDate, $"knownAt \"{knownAt}\" is not an instant; {Instants.Hint}.");
            return (day, null);
        }

        return (day, instant);
    }
}
