using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>A check that nobody has made yet, with the limits and the gauge it would be made with. What it may show is cut into cells: one
/// per outcome, or, for a measured value, some 21 of about equal probability, none of them across the edge of a band.</summary>
/// <param name="Leaks">Of a leak-down P(outcome | sum of the section's leaks, store lost): [store][level][outcome].</param>
internal sealed record Foreseen(CheckIndex Check, BandEdges? Bands, ReadingError Error, double[][][]? Leaks)
{
    private ReadingCells? _cells;

    /// <summary>Outcome that each cell belongs to.</summary>
    public int[] OutcomeOf => Bands is null ? [.. Enumerable.Range(0, Check.OutcomeIds.Length)] : _cells!.Bands;

    /// <summary>Cells of a measured value; the first levels asked with (today's) decide how it is cut.</summary>
    /// <param name="levels">P(level).</param>
    public ReadingCells Cells(double[] levels) => _cells ??= ReadingCells.Cut(Bands!, Error, levels);

    /// <summary>Conditions that its outcome hangs on.</summary>
    public int[] Conditions(ModelIndex index) => [.. (
        Check.Section is LeakSection section ? section.Watches.Concat(section.Store < 0 ? [] : [section.Store])
        : Check.Condition >= 0 ? [Check.Condition]
        : Check.Gate!.Groups.Where(g => g.Part < 0).Select(g => g.Condition)).Where(c => !index.Conditions[c].OfInstrument)];

}
