using System.Text;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.Assessments;
using FuelHistory.Host.Features.Charts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Options;

namespace FuelHistory.Host.Features.Records;

/// <summary>Gathers what the report of a vehicle shows.</summary>
public sealed class Reports(
    RecordLines lines, ComplaintStore complaints, LeakDownStore leakDowns, LeakDownViews views, PresentAnswers answers, TimeProvider clock, IOptions<JsonOptions> json)
{
    public async Task<string> Of(SqliteConnection connection, Car car, CancellationToken cancel)
    {
        var day = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        RecordView record = new(car.Vehicle, lines.Of(connection, car));
        List<ReportedComplaint> reported = [];
        foreach (var complaint in complaints.OfVehicle(connection, car.Vehicle.Entry.Id).Where(c => c.Entry.VoidReason is null).Reverse())
        {
            reported.Add(await Reported(connection, complaint, day, cancel));
        }

        return ReportPage.Of(record, car.Model.Title, reported, day);
    }

    private async Task<ReportedComplaint> Reported(SqliteConnection connection, Complaint complaint, DateOnly day, CancellationToken cancel)
    {
        List<LeakDownView> watched = [.. leakDowns.OfComplaint(connection, complaint.Entry.Id).Where(l => l.Entry.VoidReason is null).Select(l => views.Find(connection, l.Entry.Id)!)
            .Where(v => v.Readings.Count > 0).OrderBy(v => v.LeakDown.StoppedAt)];
        var now = complaint.Closed is null ? (await answers.FindBoth(complaint.Entry.Id, day, cancel)).Answers : null;
        return new(complaint, now?.Assessment, now?.Advice, Pictures(watched), [.. watched.SelectMany(v => v.LeakDown.Cautions).Distinct()]);
    }

    // two watched with the same check stand in one picture: before and after
    private List<string> Pictures(List<LeakDownView> watched)
    {
        List<string> pictures = [];
        foreach (var pair in watched.GroupBy(v => v.LeakDown.Check).SelectMany(same => same.Chunk(2)))
        {
            var drawn = Encoding.UTF8.GetString(ChartForms.Of(LeakChart.Of(pair[0], pair.ElementAtOrDefault(1)), "svg", json.Value.SerializerOptions));
            // names within the pictures are told apart, since several stand on one page
            pictures.Add(drawn[drawn.IndexOf("<svg", StringComparison.Ordinal)..].Replace("chart-title", $"chart-title-{pair[0].LeakDown.Entry.Id}", StringComparison.Ordinal)
                .Replace("chart-desc", $"chart-desc-{pair[0].LeakDown.Entry.Id}", StringComparison.Ordinal).Replace("clip-", $"clip-{pair[0].LeakDown.Entry.Id}-", StringComparison.Ordinal));
        }

        return pictures;
    }
}
