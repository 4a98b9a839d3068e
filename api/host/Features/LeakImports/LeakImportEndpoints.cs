using System.Reflection;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.LeakDowns;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.LeakImports;

public static class LeakImportEndpoints
{
    public static void MapLeakImports(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Leak-downs");
        api.MapPost(Routes.LeakDownImport, Import)
            .Says("importLeakDown", "Readings from a logger's file: CSV as the body or in a form; the file is kept as it was sent")
            .Accepts<byte[]>("text/csv", "multipart/form-data").WithMetadata(new RequestSizeLimitAttribute(Upload.Largest)).Refuses(404, 409, 422);
        api.Read(Routes.LeakDownRaw, Raw).Says("getLeakDownFile", "The logger's file as it was sent").Refuses(404);
    }

    public static async Task<Results<Kept<LeakDownView>, Refused>> Import(
        string entryId, [AsParameters] LeakFileQuery query, HttpRequest request, LeakImports imports, LeakDownViews views, CancellationToken cancelled) =>
        await imports.Take(entryId, request, query, cancelled) is { } refusal ? refusal : views.Answer(entryId);

    public static Results<RawFile, Refused> Raw(string entryId, LeakImportStore imports, LeakDownStore store, SqliteFile file)
    {
        using var connection = file.Open();
        return store.Versions(connection, entryId).Count == 0 ? ProblemAnswers.NotFound(store.Noun, entryId)
            : imports.Find(connection, entryId) is { } seq ? new RawFile(seq, entryId)
            : ProblemAnswers.NotFound("file of a logger for the leak-down", entryId);
    }
}

/// <summary>200: a logger's file, read part by part while it is sent.</summary>
public sealed class RawFile(long seq, string name) : IResult, IEndpointMetadataProvider
{
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.ContentType = "text/csv";
        httpContext.Response.Headers.ContentDisposition = $"attachment; filename=\"leak-down-{name}.csv\"";
        if (!HttpMethods.IsHead(httpContext.Request.Method))
        {
            using var connection = httpContext.RequestServices.GetRequiredService<SqliteFile>().Open();
            await LeakImportStore.CopyTo(connection, seq, httpContext.Response.Body, httpContext.RequestAborted);
        }
    }

    static void IEndpointMetadataProvider.PopulateMetadata(MethodInfo method, EndpointBuilder builder) =>
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(byte[]), ["text/csv"]));
}
