using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Life;

namespace FuelHistory.Host.Validation;

/// <summary>What dates are possible for one car: not before it was built, not after now.</summary>
public sealed class Days(DateOnly? built, string? builtText, DateTimeOffset now, DateOnly today)
{
    /// <summary>Clocks differ a little.</summary>
    public static readonly TimeSpan Tolerance = TimeSpan.FromMinutes(5);

    public static Days Any(DateTimeOffset now, DateOnly today) => new(null, null, now, today);

    public DateOnly Today => today;

    // somewhere it may be tomorrow already
    public DateOnly Latest => DateOnly.FromDateTime(now.ToOffset(TimeSpan.FromHours(14)).DateTime) is var there && there > today ? there : today;

    /// <returns>The date, or null with a fault that says why not.</returns>
    public RoughDate? Past(Faults faults, string pointer, string? text)
    {
        if (text is null)
        {
            return null;
        }

        if (!RoughDate.TryParse(text, out var date, out var why))
        {
            faults.Add(pointer, Problems.ImpossibleDate, why);
            return null;
        }

        if (date.Earliest > Latest)
        {
            faults.Add(pointer, Problems.ImpossibleDate, $"{Names.Field(pointer)} {text} has not come yet (today is {today:yyyy-MM-dd}). Enter what has happened, with its own date.");
            return null;
        }

        if (built is { } first && date.Latest < first)
        {
            faults.Add(pointer, Problems.ImpossibleDate, $"{Names.Field(pointer)} {text} lies before the car was built ({builtText}). Correct the date, or the vehicle's year.");
            return null;
        }

        return date;
    }

    /// <summary>An instant on its own clock's day.</summary>
    public void Past(Faults faults, string pointer, DateTimeOffset? instant)
    {
        if (instant is not { } at)
        {
            return;
        }

        if (at > now + Tolerance)
        {
            faults.Add(pointer, Problems.ImpossibleDate, string.Create(CultureInfo.InvariantCulture, $"{Names.Field(pointer)} {at:yyyy-MM-dd HH:mm zzz} lies in the future (now is {now.ToOffset(at.Offset):yyyy-MM-dd HH:mm zzz}). Check the year and the offset."));
        }
        else if (at.Year < RoughDate.FirstYear || (built is { } first && DateOnly.FromDateTime(at.DateTime) < first))
        {
            faults.Add(pointer, Problems.ImpossibleDate, $"{Names.Field(pointer)} {at:yyyy-MM-dd} lies before the car was built ({builtText ?? $"no earlier than {RoughDate.FirstYear}"}). Correct the date, or the vehicle's year.");
        }
    }
}
