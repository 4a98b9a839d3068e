using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Records;

public static class RecordEndpoints
{
    public static void MapRecords(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Record");
        api.Read(Routes.Record, Get).Says("getRecord", "Everything known of a vehicle as a timeline, newest first; void entries carry their reason").Refuses(404);
        api.Read(Routes.Report, Report).Says("readReport", "All of a vehicle as a web page to print: suspects, what was watched, limits with source and trust, the timeline").Refuses(404).Produces(200, contentType: WebPage.MediaType);
    }

    public static async Task<Results<WebPage, Refused>> Report(string vehicleId, Reports reports, Cars cars, SqliteFile file, CancellationToken cancel)
    {
        using var connection = file.Open();
        return cars.Find(connection, vehicleId) is { } car ? new WebPage(await reports.Of(connection, car, cancel)) : ProblemAnswers.NotFound("vehicle", vehicleId);
    }

    public static Results<Ok<RecordView>, Refused> Get(string vehicleId, RecordLines lines, Cars cars, SqliteFile file)
    {
        using var connection = file.Open();
        return cars.Find(connection, vehicleId) is { } car
            ? TypedResults.Ok(new RecordView(car.Vehicle, lines.Of(connection, car)))
            : ProblemAnswers.NotFound("vehicle", vehicleId);
    }
}
