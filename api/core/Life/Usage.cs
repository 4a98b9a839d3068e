using FuelHistory.Core.Assessment;

namespace FuelHistory.Core.Life;

/// <summary>What a car has gone through up to a day, counted from first use: years in use, km, years parked.</summary>
public readonly record struct Exposure(double UsedYears, double Km, double ParkedYears)
{
    public static Exposure operator -(Exposure a, Exposure b) => new(a.UsedYears - b.UsedYears, a.Km - b.Km, a.ParkedYears - b.ParkedYears);

    public static Exposure operator +(Exposure a, Exposure b) => new(a.UsedYears + b.UsedYears, a.Km + b.Km, a.ParkedYears + b.ParkedYears);
}

/// <summary>Exposure of one car by day: lay-ups count as parked and the odometer stands still in them; between readings the
/// distance grows evenly over the days in use; outside the readings at the nearest rate, else at the typical one.</summary>
public sealed class Usage
{
    public const double DaysPerYear = 365.25;

    /// <summary>Days of their spans at which half-known ends of lay-ups are taken.</summary>
    private const int Ways = 8;

    private readonly DateOnly _first;
    /// <summary>Equally likely ways in which it stood: one where every day is known.</summary>
    private readonly (int From, int To)[][] _parked;
    private readonly (int Day, double Km)[] _fixes;
    private readonly double _typicalPerDay;

    public Usage(CarRecord car, double typicalKmPerYear, DateOnly until)
    {
        _first = car.FirstUse;
        _typicalPerDay = typicalKmPerYear / DaysPerYear;
        bool known = !car.LayUps.Any(l => l.FromWithin is not null || l.ToWithin is not null);
        _parked = [.. Enumerable.Range(0, known ? 1 : Ways).Select(way => Merge(car.LayUps.Select(l => Span(l, way, until))))];
        _fixes = [.. car.Odometer.Select(o => (Day: Day(o.Day), o.Km)).Where(o => o.Day >= 0).OrderBy(o => o.Day).ThenBy(o => o.Km)];
    }

    /// <summary>Exposure from first use to the day; zero before first use.</summary>
    public Exposure At(DateOnly day)
    {
        int d = Math.Max(0, Day(day));
        double used = UsedDays(d);
        return new Exposure(used / DaysPerYear, Km(d, used), (d - used) / DaysPerYear);
    }

    private int Day(DateOnly day) => day.DayNumber - _first.DayNumber;

    /// <summary>First and last day of standing, where they are half known in another order of their equal days (MODEL.md 2), so that no length is
    /// preferred.</summary>
    private (int From, int To) Span(LayUpSpan layUp, int way, DateOnly until)
    {
        DateOnly from = layUp.FromWithin?.Equal(Ways)[way] ?? layUp.From;
        DateOnly? to = layUp.ToWithin?.Cut(from, layUp.ToWithin.Value.To).Equal(Ways)[((5 * way) + 3) % Ways] ?? layUp.To;
        return (Day(from), Day(to ?? until.AddDays(1)));
    }

    private double UsedDays(int day)
    {
        int parked = 0;
        foreach ((int from, int to) in _parked.SelectMany(way => way))
        {
            parked += Math.Max(0, Math.Min(day, to) - Math.Max(0, from));
        }

        return day - (parked / (double)_parked.Length);
    }

    private double Km(int day, double used)
    {
        if (_fixes.Length == 0)
        {
            return used * _typicalPerDay;
        }

        (int Day, double Km) before = (0, 0), after = default;
        bool found = false;
        foreach ((int Day, double Km) fix in _fixes)
        {
            if (fix.Day >= day)
            {
                (after, found) = (fix, true);
                break;
            }

            before = fix;
        }

        double usedBefore = UsedDays(before.Day);
        if (!found)
        {
            // after the last reading: at the average so far where that is known over a year or more of use
            double rate = usedBefore > DaysPerYear ? before.Km / usedBefore : _typicalPerDay;
            return before.Km + ((used - usedBefore) * rate);
        }

        double span = UsedDays(after.Day) - usedBefore;
        return span <= 0 ? after.Km : before.Km + ((after.Km - before.Km) * (used - usedBefore) / span);
    }

    private static (int From, int To)[] Merge(IEnumerable<(int From, int To)> spans)
    {
        var merged = new List<(int From, int To)>();
        foreach ((int from, int to) in spans.Where(s => s.To > s.From).OrderBy(s => s.From))
        {
            if (merged.Count > 0 && from <= merged[^1].To)
            {
                merged[^1] = (merged[^1].From, Math.Max(merged[^1].To, to));
            }
            else
            {
                merged.Add((from, to));
            }
        }

        return [.. merged];
    }
}
