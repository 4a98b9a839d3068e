namespace FuelHistory.Core.Readings;

/// <summary>Readings of one true value: shared and own errors are normal, so their joint density is, as a function of the true value,
/// one normal curve; integrated over a band in closed form. Ten identical readings count about as one (MODEL.md 5).</summary>
internal static class JointReadings
{
    /// <summary>One reading: its gauge and session (readings with the same group share that gauge's error), value and errors.</summary>
    internal readonly record struct Reading(int Group, double Value, double SharedVariance, double OwnVariance);

    /// <summary>Density of the readings if the true value is uniform in the band a..c.</summary>
    /// <param name="spread">Standard deviation of the limit, shared by all readings.</param>
    public static double Density(IReadOnlyList<Reading> readings, double a, double c, double spread) => Density(readings, new LevelValues(a, c, 0), spread);

    /// <summary>Density of the readings if the true value is one of a level.</summary>
    public static double Density(IReadOnlyList<Reading> readings, LevelValues values, double spread)
    {
        if (readings.Count == 0)
        {
            return 1;
        }

        // 1. per gauge and session: precision A and weighted sum B of the common value, the rest of the exponent in log
        double precision = 0, weighted = 0, log = 0;
        foreach (IGrouping<int, Reading> group in readings.GroupBy(r => r.Group))
        {
            double s = 0, sx = 0, sxx = 0, shared = group.First().SharedVariance;
            foreach (Reading r in group)
            {
                double w = 1 / r.OwnVariance;
                s += w;
                sx += w * r.Value;
                sxx += w * r.Value * r.Value;
                log -= 0.5 * Math.Log(2 * Math.PI * r.OwnVariance);
            }

            double shrink = 1 / (1 + (shared * s));
            log += (0.5 * Math.Log(shrink)) - (0.5 * (sxx - (shared * shrink * sx * sx)));
            precision += s * shrink;
            weighted += sx * shrink;
        }

        // 2. the normal curve over the common value, widened by the limit's spread, over the values of the level
        double centre = weighted / precision, sd = Math.Sqrt((1 / precision) + (spread * spread));
        log += (0.5 * weighted * centre) + (0.5 * Math.Log(2 * Math.PI / precision));
        return Math.Exp(log) * values.Density(centre, sd);
    }
}
