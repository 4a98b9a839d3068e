using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Library;

/// <summary>Whether a limit can judge what a check reads.</summary>
public static class LibraryFigures
{
    /// <returns>Why the check's readings cannot be judged by the limit, in a sentence; null where they can.</returns>
    public static string? WhyNot(LibraryLimit limit, Check check)
    {
        ArgumentNullException.ThrowIfNull(limit);
        ArgumentNullException.ThrowIfNull(check);
        bool leak = limit.Points.Any(p => p.Minutes is not null);
        return limit.NotForJudging is { } reason ? $"No reading is judged by this one: {reason}."
            : check.Kind is not (CheckKind.Measurement or CheckKind.LeakDown) ? $"\"{check.Id}\" is not measured, so it has no limits."
            : leak != (check.Kind == CheckKind.LeakDown) ? $"The limit is {(leak ? "for a pressure over time" : "for one reading")}; \"{check.Id}\" is {(leak ? "one reading" : "a pressure over time")}."
            : limit.Quantity != (check.Quantity ?? Quantity.Pressure.Id) ? $"The limit is a {limit.Quantity}; \"{check.Id}\" reads a {check.Quantity}."
            : limit.Over is { } over && check.Covariate is null ? $"The limit depends on the {over.Title}, which \"{check.Id}\" does not ask for."
            : limit.Over is { } given && check.Covariate!.Quantity != given.Quantity ? $"The limit depends on the {given.Title}; \"{check.Id}\" asks for the {check.Covariate.Title}."
            : null;
    }

    /// <summary>The points with At in the unit in which the check asks for it.</summary>
    public static IReadOnlyList<LimitPoint> PointsFor(LibraryLimit limit, Check check)
    {
        ArgumentNullException.ThrowIfNull(limit);
        ArgumentNullException.ThrowIfNull(check);
        return limit.Over is { } over && check.Covariate is { } asked && Quantity.Find(over.Quantity) is { } quantity
            ? [.. limit.Points.Select(p => p with { At = p.At is { } at ? quantity.Convert(at, over.Unit, asked.Unit) : null })]
            : limit.Points;
    }
}
