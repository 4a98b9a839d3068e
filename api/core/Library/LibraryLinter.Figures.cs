using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Library;

public static partial class LibraryLinter
{
    // what such readings can be on a car at all, in the quantity's first unit; outside of it a unit or a point has slipped
    private static readonly Dictionary<string, (double Low, double High)> Plausible = new()
    {
        ["pressure"] = (0.001, 12),
        ["voltage"] = (0.1, 16),
        ["current"] = (0.001, 30),
        ["resistance"] = (0.05, 25000),
        ["volume"] = (20, 3000),
        ["time"] = (0.2, 1800),
        ["speed"] = (30, 6000),
        ["ratio"] = (0.1, 100),
        ["temperature"] = (-50, 200),
    };

    private const string Diesel = "diesel-mechanical";
    private const double HighestNozzlePressure = 400;

    private static List<LintNote> FigureRules(LibraryLimit limit)
    {
        List<LintNote> notes = [];
        if (Quantity.Find(limit.Quantity) is not { } quantity)
        {
            Add("quantity", "quantity", $"\"{limit.Quantity}\" is none of {string.Join(", ", Quantity.All.Select(q => q.Id))}.");
            return notes;
        }

        bool figures = limit.Low is not null || limit.High is not null || limit.Points.Count > 0;
        if (!figures && limit.NotForJudging is null)
        {
            Add("no-figures", "printed", "There are no figures: give them, or say in notForJudging why not.");
        }

        if (figures && (limit.Unit is null || !quantity.Has(limit.Unit)))
        {
            Add("unit", "unit", $"\"{limit.Unit}\" is no unit of {quantity.Id}: {string.Join(", ", quantity.Units)}.");
            return notes;
        }

        if (limit.Seconds is not null != (figures && quantity == Quantity.Volume))
        {
            Add("seconds", "seconds", "A volume says in how many seconds it comes, and nothing else does.");
        }

        if (limit.Low >= limit.High || limit.Points.Any(p => p.Low >= p.High))
        {
            Add("order", "low", "Low must be below high.");
        }

        notes.AddRange(PointRules(limit));
        (double least, double most) = limit.Systems.Contains(Diesel) && quantity == Quantity.Pressure ? (0.001, HighestNozzlePressure) : Plausible.GetValueOrDefault(quantity.Id, (0, double.MaxValue));
        foreach (double value in Values(limit).Where(v => quantity.Convert(v, limit.Unit!, quantity.Units[0]) is var there && (there < least || there > most)))
        {
            Add("implausible", "unit", $"{value} {limit.Unit} lies outside {least} to {most} {quantity.Units[0]}. Check figure and unit.");
        }

        return notes;

        void Add(string rule, string member, string message) => notes.Add(new LintNote(rule, $"limits[{limit.Id}].{member}", message));
    }

    private static IEnumerable<LintNote> PointRules(LibraryLimit limit)
    {
        string path = $"limits[{limit.Id}].points";
        bool leak = limit.Points.Any(p => p.Minutes is not null), over = limit.Points.Any(p => p.At is not null);
        if (limit.Points.Any(p => p.Minutes is null == p.At is null || (p.Low is null && p.High is null)) || (leak && over))
        {
            yield return new LintNote("points", path, "Points have either minutes or at, all the same, and a figure each.");
        }

        if (limit.Points.Count > 0 && (limit.Low is not null || limit.High is not null))
        {
            yield return new LintNote("points", path, "Give points, or low and high, not both.");
        }

        if (over != limit.Over is not null || (limit.Over is { } covariate && Quantity.Find(covariate.Quantity)?.Has(covariate.Unit) != true))
        {
            yield return new LintNote("over", $"limits[{limit.Id}].over", "Points with at need over: what at is, with a known quantity and unit; nothing else has it.");
        }

        IEnumerable<double?> places = limit.Points.Select(p => p.Minutes ?? p.At);
        if (places.Zip(places.Skip(1)).Any(p => !(p.First < p.Second)))
        {
            yield return new LintNote("order", path, "Points must rise, each once.");
        }

        if (leak && limit.Points.Zip(limit.Points.Skip(1)).Any(p => p.First.Low < p.Second.Low))
        {
            yield return new LintNote("order", path, "A pressure left after the stop does not rise.");
        }

        if (limit.HoldFrom is { } hold && (!leak || limit.Points.Any(p => p.Low >= hold)))
        {
            yield return new LintNote("hold-from", $"limits[{limit.Id}].holdFrom", "Only a leak-down starts from a pressure, which is above all its points.");
        }
    }

    private static IEnumerable<double> Values(LibraryLimit limit) =>
        limit.Points.SelectMany(p => new[] { p.Low, p.High }).Concat([limit.Low, limit.High, limit.HoldFrom]).OfType<double>();
}
