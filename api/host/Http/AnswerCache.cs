using System.Collections.Concurrent;
using System.Reflection;
using Microsoft.AspNetCore.Http.Metadata;

namespace FuelHistory.Host.Http;

/// <summary>Answers that are dear to compute, kept as they go over the wire until what they depend on has another revision.</summary>
public sealed class AnswerCache
{
    private const int Most = 256;
    private readonly ConcurrentDictionary<(string Of, string Tag), byte[]> kept = new();
    private readonly SemaphoreSlim[] gates = [.. Enumerable.Range(0, 16).Select(_ => new SemaphoreSlim(1, 1))];

    /// <summary>Held while an answer is computed, so that who asks for the same meanwhile waits for it (without a thread) and does not compute it too.</summary>
    public SemaphoreSlim Gate(string of, string tag) => gates[(uint)HashCode.Combine(of, tag) % gates.Length];

    public byte[]? Find(string of, string tag) => kept.GetValueOrDefault((of, tag));

    public void Keep(string of, string tag, byte[] body)
    {
        if (kept.Count >= Most)
        {
            kept.Clear();
        }

        kept[(of, tag)] = body;
    }
}

/// <summary>200 with a body that is JSON already, or 304.</summary>
public sealed class Kept<T>(ReadOnlyMemory<byte> body, string tag) : IResult, IEndpointMetadataProvider
{
    public Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.Headers.ETag = tag;
        if (Tags.Names(httpContext.Request.Headers.IfNoneMatch, tag))
        {
            response.StatusCode = StatusCodes.Status304NotModified;
            return Task.CompletedTask;
        }

        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = body.Length;
        return HttpMethods.IsHead(httpContext.Request.Method) ? Task.CompletedTask : response.BodyWriter.WriteAsync(body, httpContext.RequestAborted).AsTask();
    }

    static void IEndpointMetadataProvider.PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(T), ["application/json"]));
        builder.Metadata.Add(new Tagged());
    }
}
