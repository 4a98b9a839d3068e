using System.Globalization;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>The option --table ID: ways of being bad by events of one of our models, each with its paths. Serves nothing.</summary>
internal static class ModelTables
{
    public const string Switch = "--table";

    private const int Fine = 0, Usage = 2;

    /// <param name="ours">The folder of our models.</param>
    public static int Run(string[] args, string ours, TextWriter output)
    {
        var at = Array.IndexOf(args, Switch);
        var models = new FaultModelFolder(ours);
        if (at + 1 >= args.Length || models.Find(args[at + 1]) is not { } model)
        {
            output.WriteLine($"{Switch} wants the id of a fault model: {string.Join(", ", models.Known.Select(m => m.Id))}.");
            return Usage;
        }

        foreach (var cell in ModelTable.Of(model).GroupBy(e => e.Cell))
        {
            var told = model.Cells.First(c => c.Id == cell.Key);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{told.Id}: {told.Title} (by itself {told.Background})"));
            cell.ToList().ForEach(e => output.WriteLine(Line(e)));
        }

        return Fine;
    }

    private static string Line(TableEntry e) => string.Create(CultureInfo.InvariantCulture, $"  {e.Total:0.00}  {e.Mode,-36}")
        + string.Join(", ", new[] { Own(e) }.OfType<string>().Concat(e.Paths.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Of} {p.P:0.00}"))));

    private static string? Own(TableEntry e) => e.Own == 0 ? null
        : string.Create(CultureInfo.InvariantCulture, $"own {e.Own:0.00}") + (e.Spread is { } spread ? string.Create(CultureInfo.InvariantCulture, $" (writers apart by {spread:0.0})") : "");
}
