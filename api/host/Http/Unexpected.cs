using FuelHistory.Contracts;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Http;

/// <summary>What no handler answered: exceptions, and the bare 404, 405 and 415 of the routing.</summary>
internal sealed class Unexpected(SqliteFile file, ILogger<Unexpected> log) : IExceptionHandler
{
    private const int SqliteBusy = 5;
    private const int SqliteLocked = 6;
    private const int SqliteFull = 13;

    // ENOSPC, and ERROR_DISK_FULL as an HRESULT
    private const int UnixNoSpace = 28, WindowsDiskFull = unchecked((int)0x80070070);

    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        var refusal = exception switch
        {
            BadHttpRequestException { StatusCode: StatusCodes.Status415UnsupportedMediaType } => ProblemAnswers.MediaType(httpContext.Request.ContentType, TakenTypes.At(httpContext)),
            BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } => ProblemAnswers.Malformed(StatusCodes.Status413PayloadTooLarge, TooLarge(httpContext)),
            BadHttpRequestException bad => ProblemAnswers.Malformed(bad.StatusCode, bad.Message),
            SqliteException { SqliteErrorCode: SqliteBusy or SqliteLocked } => ProblemAnswers.Busy(file.BusySeconds),
            SqliteException { SqliteErrorCode: SqliteFull } => ProblemAnswers.Full(),
            IOException io when IsDiskFull(io) => ProblemAnswers.Full(),
            FaultModelUnusableException unusable => ProblemAnswers.FaultModelUnusable(unusable.Message),
            _ => ProblemAnswers.Internal(),
        };
        if (refusal.Code == Problems.Internal)
        {
            log.LogError(exception, "{Method} {Path} failed", httpContext.Request.Method, httpContext.Request.Path);
        }

        await refusal.ExecuteAsync(httpContext);
        return true;
    }

    /// <summary>A file on its way in needs room too, where this machine keeps its temporary files.</summary>
    internal static bool IsDiskFull(IOException exception) => exception.HResult is UnixNoSpace or WindowsDiskFull;

    public static Task Bare(StatusCodeContext context)
    {
        var (request, response) = (context.HttpContext.Request, context.HttpContext.Response);
        var refusal = response.StatusCode switch
        {
            StatusCodes.Status404NotFound => ProblemAnswers.NoRoute(request.Path),
            StatusCodes.Status405MethodNotAllowed => ProblemAnswers.Method(request.Method, request.Path, response.Headers.Allow.ToString()),
            StatusCodes.Status415UnsupportedMediaType => ProblemAnswers.MediaType(request.ContentType, TakenTypes.At(context.HttpContext)),
            < 500 => ProblemAnswers.Malformed(response.StatusCode, "The request cannot be read."),
            _ => ProblemAnswers.Internal(),
        };
        return refusal.ExecuteAsync(context.HttpContext);
    }

    private static string TooLarge(HttpContext context) =>
        context.Features.Get<IExceptionHandlerFeature>()?.Endpoint?.Metadata.GetMetadata<IRequestSizeLimitMetadata>()?.MaxRequestBodySize is { } most
            ? $"The file is larger than {most / 1024 / 1024} MiB. Log more slowly, or cut it after the part that matters."
            : $"The body is larger than {StrictBody.Largest / 1024} KiB. Split it, or shorten the notes.";
}
