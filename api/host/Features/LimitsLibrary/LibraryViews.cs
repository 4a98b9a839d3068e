using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Library;
using FuelHistory.Host.Features.Limits;

namespace FuelHistory.Host.Features.LimitsLibrary;

using LibraryLimit = FuelHistory.Contracts.LibraryLimit;
using LimitPoint = FuelHistory.Contracts.LimitPoint;

/// <summary>A limit of the library as a client sees it.</summary>
internal static class LibraryViews
{
    /// <param name="model">The fault model asked for: only its checks are named then.</param>
    public static LibraryLimit Of(Core.Library.LimitsLibrary library, Core.Library.LibraryLimit l, FaultModel? model = null, Closeness? closeness = null)
    {
        var source = library.SourceOf(l);
        string[] checks = [.. l.Checks.Where(id => model is null || model.Checks.Any(c => c.Id == id))];
        LimitPoint[] points = [.. l.Points.Select(p => new LimitPoint(p.Minutes, p.At, p.Low, p.High))];
        return new LibraryLimit(
            l.Id, l.Title, l.Quantity, l.Systems, checks,
            source.Kind, LimitWords.Trust(source.Kind, l.PartlyOurs ? LimitWords.PartlyOurs : null), Car(l.Given), l.Given.Make, l.Given.Model, l.Given.Engines, l.Given.From, l.Given.To,
            source.Cite, l.Point, l.SetUp, l.Printed, Figures(l, points), l.Unit, l.Seconds, l.Low, l.High, l.HoldFrom, points,
            l.Over is { } over ? new CovariateView(over.Id, over.Title, over.Quantity, over.Unit) : null,
            l.PartlyOurs, l.Worked, l.Misprint, l.Remark, l.NotForJudging, closeness is { } near ? Word(near) : null,
            model is not null && checks.Length > 0 ? null : l.NoCheck);
    }

    public static bool Has(LibraryLimit l, string? text)
    {
        var all = string.Join(' ', [l.Title, l.Car, l.Point, .. l.SetUp, l.Printed, l.TrustText, l.Source, l.Id]);
        return (text ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).All(word => all.Contains(word, StringComparison.OrdinalIgnoreCase));
    }

    private static string Figures(Core.Library.LibraryLimit l, LimitPoint[] points) =>
        l.Unit is null ? "" : LimitWords.Figures(l.Unit, l.Low, l.High, points, l.Over?.Unit)
            + (l.Seconds is { } seconds ? $" in {Validation.Names.Number(seconds)} s" : "")
            + (l.HoldFrom is { } hold ? $", from {Validation.Names.Number(hold)} {l.Unit}" : "");

    private static string Car(Given g)
    {
        string?[] parts = [g.Make, g.Model, g.Engines.Count > 0 ? string.Join("/", g.Engines) : null, Years(g)];
        var words = string.Join(" ", parts.Where(p => p is not null));
        return words.Length > 0 ? words : "any car of the system";
    }

    private static string? Years(Given g) => (g.From, g.To) switch
    {
        (null, null) => null,
        ({ } from, { } to) when from == to => $"{from}",
        ({ } from, null) => $"from {from}",
        (null, { } to) => $"to {to}",
        var (from, to) => $"{from}-{to}",
    };

    private static string Word(Closeness closeness) => closeness switch
    {
        Closeness.ThisCar => "this-car",
        Closeness.ThisModel => "this-model",
        Closeness.ThisMake => "this-make",
        Closeness.AnyCar => "any-car",
        _ => "other-car",
    };
}
