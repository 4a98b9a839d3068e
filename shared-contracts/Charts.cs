namespace FuelHistory.Contracts;

/// <summary>A chart as figures: what the picture shows, for who cannot see it or wants to draw it anew. XUnit: min, or year (then each
/// point's Label is its date).</summary>
public sealed record ChartView(
    string Title,
    string Description,
    string XTitle,
    string XUnit,
    string YTitle,
    string YUnit,
    IReadOnlyList<ChartSeries> Series,
    IReadOnlyList<string> Cautions);

/// <summary>Kind: readings, forecast, good or limit. Run: 1, or 2 where two leak-downs are compared.</summary>
public sealed record ChartSeries(string Name, string Kind, int Run, IReadOnlyList<ChartPoint> Points);

/// <summary>Low and High: the band around the value, as far as there is one. A limit has Low or High or both and no Value.</summary>
public sealed record ChartPoint(double X, double? Value, double? Low = null, double? High = null, string? Label = null);
