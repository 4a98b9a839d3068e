using FuelHistory.Contracts;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Http;

/// <summary>The refusals, one per code.</summary>
public static class ProblemAnswers
{
    public static Refused Malformed(IReadOnlyList<Fault> faults) =>
        new(StatusCodes.Status400BadRequest, Problems.Malformed, "The body has not the form that was expected", Said(faults), faults);

    public static Refused Malformed(int status, string detail) =>
        new(status, Problems.Malformed, "The request cannot be read", detail);

    public static Refused Invalid(Faults faults) =>
        new(StatusCodes.Status422UnprocessableEntity, Problems.Invalid, "Something in the input is wrong; nothing was stored", Said(faults.Found), faults.Found);

    public static Refused NotFound(string kind, string id) =>
        new(StatusCodes.Status404NotFound, Problems.NotFound, "Not found", $"There is no {kind} with the id \"{id}\".");

    public static Refused NoRoute(string path) =>
        new(StatusCodes.Status404NotFound, Problems.NotFound, "Not found", $"Nothing is served at {path}. {Routes.OpenApi} lists every address.");

    public static Refused Method(string method, string path, string allowed) =>
        new(StatusCodes.Status405MethodNotAllowed, Problems.Method, "Method not allowed", $"{method} is not possible at {path}; allowed: {allowed}.");

    public static Refused MediaType(string? sent, string taken) =>
        new(StatusCodes.Status415UnsupportedMediaType, Problems.MediaType, "Unsupported media type", $"The body is sent as \"{sent ?? "nothing"}\"; send it as {taken}.");

    public static Refused NotAcceptable(string? asked, IEnumerable<string> there) =>
        new(StatusCodes.Status406NotAcceptable, Problems.NotAcceptable, "Not acceptable", $"Accept asks for \"{asked}\"; this can be had as {string.Join(", ", there)}, or with format= in the address.");

    public static Refused Stale(string sent, int present) =>
        new(StatusCodes.Status412PreconditionFailed, Problems.Stale, "Changed in the meantime", $"If-Match names {sent}, but version {present} is the newest. Read it again, then repeat your change.") { ETag = $"\"{present}\"" };

    public static Refused Closed(string detail) =>
        new(StatusCodes.Status409Conflict, Problems.Closed, "No further change", detail);

    public static Refused Busy(int seconds) =>
        new(StatusCodes.Status503ServiceUnavailable, Problems.StorageBusy, "The database is busy", $"Another writer held the database for {seconds} s; nothing was stored. Try again.") { RetryAfter = 1 };

    public static Refused NotReady(string detail) =>
        new(StatusCodes.Status503ServiceUnavailable, Problems.StorageBusy, "Not ready", detail) { RetryAfter = 1 };

    public static Refused Full() =>
        new(StatusCodes.Status507InsufficientStorage, Problems.StorageFull, "The disk is full", "There is no room left for the database; nothing was stored. Reading still works. Make room, then try again.");

    public static Refused FaultModelUnusable(string detail) =>
        new(StatusCodes.Status503ServiceUnavailable, Problems.FaultModelUnusable, "The vehicle's fault model cannot be used", detail);

    public static Refused Internal() =>
        new(StatusCodes.Status500InternalServerError, Problems.Internal, "A fault in this program", "The request failed through a fault of this program; nothing was stored. The log has more under the same trace id.");

    private static string Said(IReadOnlyList<Fault> faults) =>
        faults.Count == 1 ? faults[0].Detail : $"{faults.Count} faults: {string.Join(" ", faults.Take(3).Select(f => f.Detail))}{(faults.Count > 3 ? " ..." : "")}";
}
