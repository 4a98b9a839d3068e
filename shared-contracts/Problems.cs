namespace FuelHistory.Contracts;

/// <summary>Every stable code of a refusal, once. The problem's type is "urn:fuelhistory:problem:" followed by the code.</summary>
public static class Problems
{
    public const string TypePrefix = "urn:fuelhistory:problem:";

    /// <summary>The body is not JSON or does not have the members that the document names.</summary>
    public const string Malformed = "malformed";
    /// <summary>One or more members are wrong; each has an entry in errors.</summary>
    public const string Invalid = "invalid";
    public const string NotFound = "not-found";
    public const string Method = "method-not-allowed";
    public const string MediaType = "unsupported-media-type";
    /// <summary>None of the media types that Accept names can be had here.</summary>
    public const string NotAcceptable = "not-acceptable";
    /// <summary>If-Match names a version that is no longer the newest.</summary>
    public const string Stale = "stale-version";
    /// <summary>The entry is void, or the complaint is closed, or the vehicle archived: no further change.</summary>
    public const string Closed = "closed";
    /// <summary>The database is busy or out of space; nothing was stored.</summary>
    public const string StorageBusy = "storage-busy";
    public const string StorageFull = "storage-full";
    /// <summary>The vehicle names a fault model that was refused at the start of the host, or is not there.</summary>
    public const string FaultModelUnusable = "fault-model-unusable";
    public const string Internal = "internal";

    // codes of single faults inside "invalid"
    public const string Required = "required";
    public const string Unknown = "unknown";
    public const string OutOfRange = "out-of-range";
    public const string ImpossibleDate = "impossible-date";
    /// <summary>asOf lies before the complaint began: there was nothing to assess.</summary>
    public const string BeforeComplaint = "before-complaint";
    /// <summary>asOf has not come yet.</summary>
    public const string InFuture = "in-future";
    public const string WrongUnit = "wrong-unit";
    /// <summary>Not impossible, but far from anything this check can show: send again with "confirmed": true if it is right.</summary>
    public const string Implausible = "implausible";
    public const string MissingCovariate = "missing-covariate";
    public const string Unsuitable = "unsuitable";
    /// <summary>By its fitted options the car does not have the part.</summary>
    public const string NotFitted = "not-fitted";

    // of readings that arrive one by one, and of a logger's file; there the pointer is /lines/ and the line's number
    /// <summary>Known already, with other figures.</summary>
    public const string Differs = "differs";
    public const string NotANumber = "not-a-number";
    public const string OutOfOrder = "out-of-order";
    public const string TimeTwice = "time-twice";
    public const string MixedUnits = "mixed-units";
    public const string TooMany = "too-many";
}

/// <summary>One fault of an input. Pointer: RFC 6901, into the body; or the name of a query parameter.</summary>
public sealed record Fault(string Pointer, string Code, string Detail);

/// <summary>A refusal (RFC 9457) as it crosses the wire.</summary>
public sealed record Problem(string Type, string Title, int Status, string Detail, string Code, string TraceId, IReadOnlyList<Fault>? Errors = null);
