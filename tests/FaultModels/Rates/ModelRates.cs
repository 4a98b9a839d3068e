using System.Collections.Concurrent;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.FaultModels.Rates;

/// <summary>The figure of one fault model that a published one is compared with.</summary>
internal static class ModelRates
{
    private static readonly ConcurrentDictionary<(string, RatedCar, string), Lazy<Occurrence>> Known = new();

    public static double Of(RateCheck check, string model)
    {
        Occurrence over = At(model, check.Car, check.Options);
        List<(Component Part, int Mode)> picked = Picked(over, check.Over);
        return check.Counts switch
        {
            Counted.HalfLife => HalfLife(over, picked),
            Counted.BadWhenNew => picked.Select(p => p.Part).Distinct().Average(p => p.BadWhenFitted?.New ?? over.Model.BadWhenFitted.New),
            Counted.AdjustingFails => AdjustingFails(over, picked),
            _ => Sum(check.Counts, over, picked) / Under(check, model, over),
        };
    }

    /// <summary>Cars of that age and use, with the fittings of the list but for those named.</summary>
    public static Occurrence At(string model, RatedCar car, IReadOnlyDictionary<string, string> otherwise) =>
        Known.GetOrAdd((model, car, string.Join(' ', otherwise)), _ => new(() =>
        {
            RatedFitting fitted = PublishedRates.All.Fitted[model];
            FaultModel read = RealModels.Model(model);
            var options = fitted.Options.Where(o => !otherwise.ContainsKey(o.Key)).Concat(otherwise).ToDictionary();
            return new Occurrence(read, car.Years, car.Km, new HashSet<string>([.. FittedOptions.Absent(read, options), .. fitted.Absent]));
        })).Value;

    /// <summary>What the pick means, with or without its mark.</summary>
    public static bool Means(string pick, Component part, int mode) =>
        new[] { $"side:{part.Side}", part.Id, $"{part.Id}.{part.Modes[mode].Id}" }.Contains(pick.TrimStart('!'));

    /// <summary>Of each group what its picks name, but for what those with a mark name, whatever their order.</summary>
    public static List<(Component Part, int Mode)> Picked(Occurrence car, IEnumerable<string> groups)
    {
        ILookup<bool, string>[] picks = [.. groups.Select(g => PublishedRates.All.Groups[g].ToLookup(p => p[0] == '!'))];
        return [.. car.Modes.Where(m => picks.Any(g => Named(g[false], m) && !Named(g[true], m)))];

        static bool Named(IEnumerable<string> picks, (Component Part, int Mode) m) => picks.Any(p => Means(p, m.Part, m.Mode));
    }

    /// <summary>The denominator: another group on the same cars, or the same group on other cars.</summary>
    private static double Under(RateCheck check, string model, Occurrence over)
    {
        Occurrence car = check.UnderCar is null ? over : At(model, check.UnderCar, check.Options);
        return Sum(check.Counts, car, Picked(car, check.UnderCar is null ? check.Under : check.Over));
    }

    private static double Sum(Counted counts, Occurrence car, List<(Component Part, int Mode)> picked) => picked.Sum(m => counts switch
    {
        Counted.Breakdowns => car.Breakdown(m.Part, m.Mode),
        Counted.Noticed => car.Noticed(m.Part, m.Mode),
        _ => car.Present(m.Part, m.Mode),
    });

    private static double HalfLife(Occurrence car, List<(Component Part, int Mode)> picked)
    {
        const double Step = 1 / 12.0;
        double years = Step;
        while (picked.Aggregate(1.0, (kept, m) => kept * Kept(m.Part.Modes[m.Mode].Life, years)) > 0.5)
        {
            years += Step;
        }

        return years;

        double Kept(LifeFigures life, double used) =>
            Hazard.Survival(0, Hazard.Cumulative(life, new Exposure(used, used * car.Model.Use.KmPerYear, 0)), life.A, life.A);
    }

    private static double AdjustingFails(Occurrence car, List<(Component Part, int Mode)> picked)
    {
        double fails = picked.Sum(m => car.Noticed(m.Part, m.Mode) * (1 - m.Part.Modes[m.Mode].Cures("adjust")));
        return fails / (picked.Sum(m => car.Noticed(m.Part, m.Mode)) - fails);
    }
}
