using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Validation;
using LimitPoint = FuelHistory.Contracts.LimitPoint;

namespace FuelHistory.Host.Features.Limits;

/// <summary>Figures of a limit in words, and how far its source is to be trusted.</summary>
internal static class LimitWords
{
    /// <summary>The trust of a limit that was entered by hand.</summary>
    public const string Own = "own";

    private const int BriefLength = 90;

    /// <summary>A tolerance, or another part of the figures, stands in no document.</summary>
    public const string PartlyOurs = "some figures are ours";

    public static string Figures(string unit, double? low, double? high, IReadOnlyList<LimitPoint>? points, string? covariateUnit) =>
        points is not { Count: > 0 } ? Span(low, high, unit)
        : string.Join(", ", points.Select(p => p.Minutes is { } minutes
            ? $"{Span(p.Low, p.High, unit)} after {Names.Number(minutes)} min"
            : $"{Span(p.Low, p.High, unit)} at {Names.Number(p.At ?? 0)} {covariateUnit}".TrimEnd()));

    public static string Span(double? low, double? high, string unit) => (low, high) switch
    {
        ({ } l, { } h) => $"{Names.Number(l)} to {Names.Number(h)} {unit}",
        ({ } l, null) => $"at least {Names.Number(l)} {unit}",
        (null, { } h) => $"at most {Names.Number(h)} {unit}",
        _ => "",
    };

    /// <summary>What is from memory never reads like something published.</summary>
    /// <param name="reserve">What else keeps it from being this car's for certain.</param>
    public static string Trust(string kind, string? reserve = null)
    {
        var words = kind switch
        {
            Own => "own entry",
            "published" => "published",
            "excerpt" => "published, seen in part",
            "common-practice" => "common practice, no maker's figure",
            "memory" => "from memory, unconfirmed: check the manual",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no kind of source"),
        };
        return reserve is null ? words : $"{words}; {reserve}";
    }

    /// <summary>The limit that judges a check's readings, in words: this car's, or the model's typical one; source and trust.</summary>
    public static string Judge(Limit? own, FaultModel model, Check check) =>
        own is { Trust: Own } ? $"this car's own: {own.Source}"
        : own is not null ? $"taken for this car, {own.TrustText}: {own.Source}"
        : check.Limits is { } typical && model.Sources.TryGetValue(typical.Source, out var source) ? $"typical of this system, {Trust(source.Kind)}: {source.Cite}"
        : "typical of this system";

    /// <summary>As much as a picture's legend holds: the trust stands first, the end of the source may be cut.</summary>
    public static string Brief(string words) => words.Length <= BriefLength ? words : words[..(BriefLength - 1)].TrimEnd() + "…";

    /// <summary>Where a car's limit comes from and how far to trust it.</summary>
    public static string Origin(Limit limit) => $"{limit.TrustText}: {limit.Source}";
}
