namespace FuelHistory.Core.Readings;

/// <summary>What a gauge may show, cut into cells of about equal probability by today's belief, and P(cell | level) with all errors (MODEL.md 8).
/// The cells are outcomes in their own right, so beliefs averaged over them are today's exactly.</summary>
internal sealed class ReadingCells
{
    /// <summary>Cells of equal probability; the edges of the bands cut some of them in two.</summary>
    private const int Equal = 21;

    /// <summary>Steps of the grid, per band, on which cells may end.</summary>
    private const int Steps = 32;

    private readonly double[][] _byLevel;

    private ReadingCells(int[] bands, double[][] byLevel) => (Bands, _byLevel) = (bands, byLevel);

    /// <summary>Band of each cell.</summary>
    public int[] Bands { get; }

    /// <summary>P(cell | the true value is one of a level).</summary>
    public double At(int cell, int level) => _byLevel[cell][level];

    /// <param name="levels">P(level), lowest first.</param>
    public static ReadingCells Cut(BandEdges bands, ReadingError error, double[] levels)
    {
        var cellBands = new List<int>();
        var byLevel = new List<double[]>();
        double[] last = new double[levels.Length];
        for (int band = 0; band < levels.Length; band++)
        {
            for (int step = 1; step <= Steps; step++)
            {
                double x = bands.Edges[band] + ((bands.Edges[band + 1] - bands.Edges[band]) * step / Steps);
                double[] below = band == levels.Length - 1 && step == Steps ? [.. levels.Select(_ => 1.0)] : Below(bands, error, x);
                double gathered = 0;
                for (int l = 0; l < levels.Length; l++)
                {
                    gathered += levels[l] * (below[l] - last[l]);
                }

                if (step == Steps || gathered >= 1.0 / Equal)
                {
                    cellBands.Add(band);
                    byLevel.Add([.. below.Zip(last, (b, l) => Math.Max(0, b - l))]);
                    last = below;
                }
            }
        }

        return new ReadingCells([.. cellBands], [.. byLevel]);
    }

    /// <summary>Per level, P(the gauge shows less than x): the true value one of the level's, both errors and the limit's spread
    /// normal, slips anywhere. What is read beyond either end belongs to the last cell there.</summary>
    private static double[] Below(BandEdges bands, ReadingError error, double x)
    {
        double sd = Math.Sqrt(error.SharedVariance + error.OwnVariance + (bands.Spread * bands.Spread));
        double anywhere = (x - bands.Edges[0]) / (bands.Top - bands.Edges[0]);
        return [.. Enumerable.Range(0, bands.Edges.Length - 1).Select(level =>
            ((1 - ReadingError.Slip) * bands.Values(level).Below(x, sd)) + (ReadingError.Slip * anywhere))];
    }
}
