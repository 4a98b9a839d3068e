using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Serialization;
using FuelHistory.Contracts;

namespace FuelHistory.Host.Http;

/// <summary>An answer that refuses a request (RFC 9457). Every refusal is written here and nowhere else.</summary>
public sealed class Refused : IResult, IStatusCodeHttpResult
{
    public const string MediaType = "application/problem+json";

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public Refused(int status, string code, string title, string detail, IReadOnlyList<Fault>? errors = null)
    {
        Status = status;
        Code = code;
        Title = title;
        Detail = detail;
        Errors = errors;
    }

    public int Status { get; }
    public string Code { get; }
    public string Title { get; }
    public string Detail { get; }
    public IReadOnlyList<Fault>? Errors { get; }

    /// <summary>Seconds after which it makes sense to try again.</summary>
    public int? RetryAfter { get; init; }

    /// <summary>The present version, for a caller whose own is stale.</summary>
    public string? ETag { get; init; }

    int? IStatusCodeHttpResult.StatusCode => Status;

    public Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.StatusCode = Status;
        if (RetryAfter is { } seconds)
        {
            response.Headers.RetryAfter = seconds.ToString(System.Globalization.CultureInfo.InvariantCulture);
        }

        if (ETag is not null)
        {
            response.Headers.ETag = ETag;
        }

        Problem problem = new(Problems.TypePrefix + Code, Title, Status, Detail, Code, Activity.Current?.TraceId.ToString() ?? httpContext.TraceIdentifier, Errors);
        return response.WriteAsJsonAsync(problem, Form, MediaType, httpContext.RequestAborted);
    }
}
