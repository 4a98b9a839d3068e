using System.Globalization;
using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.Health;

using Health = FuelHistory.Contracts.Health;

public static class HealthEndpoints
{
    private const string SchemaVersion = "PRAGMA user_version";

    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Operation");
        api.Read(Routes.Live, Live).Says("getLive", "Whether the program runs; looks at nothing else");
        api.Read(Routes.Ready, Ready).Says("getReady", "Whether the database answers and the fault models are there");
    }

    public static Ok<Health> Live() => TypedResults.Ok(new Health("live", new Dictionary<string, string>()));

    public static Results<Ok<Health>, Refused> Ready(SqliteFile file, FaultModelFolder models)
    {
        if (!File.Exists(file.Path))
        {
            return ProblemAnswers.NotReady("The database file is gone; entries would be lost. Put it back, then start again.");
        }

        using var connection = file.Open();
        var version = connection.QuerySingle<long>(SchemaVersion);
        return TypedResults.Ok(new Health("ready", new Dictionary<string, string>
        {
            ["sqlite"] = connection.ServerVersion,
            ["schema"] = version.ToString(CultureInfo.InvariantCulture),
            ["synchronous"] = "full",
            ["faultModels"] = string.Join(", ", models.Known.Select(m => $"{m.Id} {m.Revision}")),
        }));
    }
}
