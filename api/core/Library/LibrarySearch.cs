using System.Text.RegularExpressions;

namespace FuelHistory.Core.Library;

/// <summary>The car for which limits are looked for, as far as known.</summary>
/// <param name="AboutYear">The year is not certain: two years either side count as well.</param>
public sealed record WantedCar(string? System = null, string? Make = null, string? Model = null, string? Engine = null, int? Year = null, bool AboutYear = false);

/// <summary>How near the car of a limit is to the one asked for, the nearest first.</summary>
public enum Closeness { ThisCar, ThisModel, ThisMake, AnyCar, OtherCar }

public sealed record FoundLimit(LibraryLimit Limit, Closeness Closeness);

/// <summary>Limits for a car: those of its system, the nearest car first, then the most to be trusted, then in the order of the files.</summary>
public static partial class LibrarySearch
{
    private const int UnsureYears = 2;

    public static IReadOnlyList<FoundLimit> For(LimitsLibrary library, WantedCar car, string? quantity = null, string? check = null)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(car);
        return [.. library.Limits
            .Where(l => car.System is null || l.Systems.Contains(car.System))
            .Where(l => quantity is null || l.Quantity == quantity)
            .Where(l => check is null || l.Checks.Contains(check))
            .Select(l => new FoundLimit(l, Of(l.Given, car)))
            .OrderBy(f => f.Closeness)
            .ThenBy(f => Place(LimitsLibrary.Trusts, library.SourceOf(f.Limit).Kind))];
    }

    public static Closeness Of(Given given, WantedCar car)
    {
        ArgumentNullException.ThrowIfNull(given);
        ArgumentNullException.ThrowIfNull(car);
        string[] wanted = Words(car.Make), engine = Words(car.Engine);
        bool make = given.Make is not null && wanted.Length > 0 && Words(given.Make).SequenceEqual(wanted);
        bool otherMake = given.Make is not null && !make && wanted.Length > 0;
        bool itself = (make && Model(given.Model, car.Model)) || given.Engines.Any(e => Words(e).All(engine.Contains));
        bool kindred = itself || given.Engines.Any(e => engine.Contains(Words(e)[0]));
        // an engine's code may be built in by several makes, but a make that is named keeps others out
        if (!otherMake && kindred)
        {
            return itself && Year(given, car) ? Closeness.ThisCar : Closeness.ThisModel;
        }

        return make ? Closeness.ThisMake : given.Make is null && given.Model is null && given.Engines.Count == 0 ? Closeness.AnyCar : Closeness.OtherCar;
    }

    /// <summary>One of the names, all words of which the car's model has.</summary>
    private static bool Model(string? names, string? model) =>
        names is not null && model is not null && names.Split(',').Select(Words).Any(name => name.Length > 0 && name.All(Words(model).Contains));

    private static bool Year(Given given, WantedCar car)
    {
        int unsure = car.AboutYear ? UnsureYears : 0;
        return car.Year is not { } year || (year + unsure >= (given.From ?? int.MinValue) && year - unsure <= (given.To ?? int.MaxValue));
    }

    private static string[] Words(string? text) => [.. Word().Matches(text ?? "").Select(m => m.Value.ToUpperInvariant())];

    private static int Place(IReadOnlyList<string> order, string one) => order.TakeWhile(each => each != one).Count();

    [GeneratedRegex(@"[\p{L}\p{N}]+")]
    private static partial Regex Word();
}
