using FuelHistory.Contracts;
using FuelHistory.Host.Features.Findings;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Findings of one session that only repeat what another one says of the same event: together they count once.</summary>
internal static class Repeats
{
    public static IEnumerable<string> Notes(Gathered gathered)
    {
        var told = gathered.Findings.Where(f => f.ComplaintId == gathered.Complaint.Entry.Id && f.Sure)
            .Select(f => (Finding: f, Claims: EventClaims.Of(gathered.Car.Model, f)!)).Where(t => t.Claims is not null);
        foreach (var session in told.GroupBy(t => FindingConflicts.Session(t.Finding.Session, t.Finding.At)))
        {
            List<(Finding Finding, EventClaims Claims)> all = [.. session];
            for (var i = 0; i < all.Count; i++)
            {
                // of two that say the same the later one repeats
                var holds = all.FindIndex(o => o.Finding != all[i].Finding && o.Claims.Contains(all[i].Claims) && (!all[i].Claims.Contains(o.Claims) || all.IndexOf(o) < i));
                if (holds >= 0)
                {
                    yield return $"\"{all[i].Finding.Text}\" is said already by \"{all[holds].Finding.Text}\"; together they count once.";
                }
            }
        }
    }
}
