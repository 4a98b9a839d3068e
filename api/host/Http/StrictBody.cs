using Microsoft.AspNetCore.Http.Json;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Extensions.Options;

namespace FuelHistory.Host.Http;

/// <summary>Checks the shape of a JSON body before the framework binds it, since the framework stops at the first difference
/// and describes it in the words of the programming language.</summary>
internal sealed class StrictBody(RequestDelegate next, IOptions<JsonOptions> json)
{
    public const int Largest = 1024 * 1024;

    public async Task InvokeAsync(HttpContext context)
    {
        var request = context.Request;
        var accepts = context.GetEndpoint()?.Metadata.GetMetadata<IAcceptsMetadata>();
        if (accepts?.RequestType is not { } expected || !accepts.ContentTypes.Contains("application/json"))
        {
            await next(context);
            return;
        }

        using MemoryStream body = new();
        await request.Body.CopyToAsync(body, context.RequestAborted);
        var faults = ShapeCheck.Of(body.GetBuffer().AsMemory(0, (int)body.Length), expected, json.Value.SerializerOptions);
        if (faults.Count > 0)
        {
            await ProblemAnswers.Malformed(faults).ExecuteAsync(context);
            return;
        }

        body.Position = 0;
        request.Body = body;
        await next(context);
    }
}
