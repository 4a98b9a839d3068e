using System.Globalization;
using System.Reflection;
using FuelHistory.Contracts;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Extensions.Primitives;

namespace FuelHistory.Host.Http;

/// <summary>201: the entry as stored, where it is, and its tag for If-Match.</summary>
public sealed class Added<T>(T value, string location, string tag) : IResult, IStatusCodeHttpResult, IEndpointMetadataProvider
{
    public T Value => value;
    public string Location => location;
    public int? StatusCode => StatusCodes.Status201Created;

    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = StatusCodes.Status201Created;
        httpContext.Response.Headers.Location = location;
        httpContext.Response.Headers.ETag = tag;
        return httpContext.Response.WriteAsJsonAsync(value, httpContext.RequestAborted);
    }

    static void IEndpointMetadataProvider.PopulateMetadata(MethodInfo method, EndpointBuilder builder) =>
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status201Created, typeof(T), ["application/json"]));
}

/// <summary>200: the entry as it stands, with its tag; 304 where the reader has it already.</summary>
public sealed class Current<T>(T value, string tag) : IResult, IEndpointMetadataProvider
{
    public T Value => value;

    public Task ExecuteAsync(HttpContext httpContext)
    {
        var (request, response) = (httpContext.Request, httpContext.Response);
        response.Headers.ETag = tag;
        if ((HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) && Tags.Names(request.Headers.IfNoneMatch, tag))
        {
            response.StatusCode = StatusCodes.Status304NotModified;
            return Task.CompletedTask;
        }

        return response.WriteAsJsonAsync(value, httpContext.RequestAborted);
    }

    static void IEndpointMetadataProvider.PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(T), ["application/json"]));
        builder.Metadata.Add(new Tagged());
    }
}

/// <summary>Marks a route whose answers carry a tag: read again with If-None-Match it may answer 304.</summary>
public sealed class Tagged;

/// <summary>Entity tags: "version", or "version.more" where the answer also shows what belongs to other entries.</summary>
public static class Tags
{
    /// <summary>A new build may compute differently, so its answers carry other tags.</summary>
    public static readonly string Build = typeof(Tags).Module.ModuleVersionId.ToString("N")[..8];

    public static string Of(int version) => $"\"{version.ToString(CultureInfo.InvariantCulture)}\"";

    public static string Of(EntryHead head) => Of(head.Version);

    public static string Of(EntryHead head, string more) => $"\"{head.Version.ToString(CultureInfo.InvariantCulture)}.{more}\"";

    /// <summary>Whether If-None-Match names the tag; weak tags compare equal (RFC 9110, 13.1.2).</summary>
    public static bool Names(StringValues header, string tag) =>
        Split(header).Any(t => t == "*" || t == tag || t == "W/" + tag);

    /// <summary>Whether If-Match allows a change of this version; no header allows it.</summary>
    public static bool Allow(string? header, int version)
    {
        if (string.IsNullOrWhiteSpace(header))
        {
            return true;
        }

        var number = version.ToString(CultureInfo.InvariantCulture);
        return Split(header).Any(t => t == "*" || t.Trim('"') == number || t.Trim('"').StartsWith(number + ".", StringComparison.Ordinal));
    }

    private static string[] Split(StringValues header) =>
        header.ToString().Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
}
