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
    private readonly DateOnly _first;
    private readonly (int From, int To)[] _parked;
    private readonly (int Day, double Km)[] _fixes;
    private readonly double _typicalPerDay;

    public Usage(CarRecord car, double typicalKmPerYear, DateOnly until)
    {
        _first = car.FirstUse;
        _typicalPerDay = typicalKmPerYear / DaysPerYear;
        _parked = Merge(car.LayUps.Select(l => (Day(l.From), Day(l.To ?? until.AddDays(1)))));
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

    private double UsedDays(int day)
    {
        int parked = 0;
        foreach ((int from, int to) in _parked)
        {
            parked += Math.Max(0, Math.Min(day, to) - Math.Max(0, from));
        }

        return day - parked;
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
