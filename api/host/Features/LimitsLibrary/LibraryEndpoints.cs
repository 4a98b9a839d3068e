using FuelHistory.Contracts;
using FuelHistory.Core.Library;
using FuelHistory.Core.Life;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LimitsLibrary;

using LibraryLimit = FuelHistory.Contracts.LibraryLimit;

public static class LibraryEndpoints
{
    public static void MapLimitsLibrary(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Limits library");
        api.Read(Routes.LimitsLibrary, Search).Says("searchLimitsLibrary", "Limits from documents, the nearest car first, then the most to be trusted").Refuses(422);
        api.Read(Routes.LibraryLimit, Get).Says("getLibraryLimit", "One limit of the library, with all that is known of it").Refuses(404);
        api.MapPost(Routes.AdoptLimit, Adopt).Says("adoptLimit", "Take a limit of the library for one check of the vehicle; one entered by hand goes before it").Refuses(404, 409, 422);
    }

    public static Results<Ok<IReadOnlyList<LibraryLimit>>, Refused> Search(
        [AsParameters] LibraryQuery query, LibraryFolder folder, FaultModelFolder models, Cars cars, SqliteFile file)
    {
        Faults faults = new();
        Vehicle? vehicle = null;
        if (query.VehicleId is { } id)
        {
            using var connection = file.Open();
            vehicle = cars.Find(connection, id)?.Vehicle;
            if (vehicle is null)
            {
                faults.Add("vehicleId", Problems.Unknown, $"There is no vehicle \"{id}\".");
            }
        }

        var car = Wanted(query, vehicle, faults);
        var model = car.System is null ? null : models.Find(car.System);
        if (query.System is { } system)
        {
            faults.Known("system", "fuel system", system, folder.Library.Limits.SelectMany(l => l.Systems).Concat(models.Known.Select(m => m.Id)).Distinct());
        }

        if (query.Quantity is { } quantity)
        {
            faults.OneOf("quantity", quantity, [.. Quantity.All.Select(q => q.Id)]);
        }

        if (query.Check is { } check && model is not null)
        {
            faults.Known("check", "check", check, model.Checks.Select(c => c.Id));
        }

        return faults.None
            ? TypedResults.Ok<IReadOnlyList<LibraryLimit>>([.. LibrarySearch.For(folder.Library, car with { System = car.System is null ? null : models.SystemOf(car.System) }, query.Quantity, query.Check)
                .Select(f => LibraryViews.Of(folder.Library, f.Limit, model, f.Closeness))
                .Where(l => LibraryViews.Has(l, query.Text))])
            : ProblemAnswers.Invalid(faults);
    }

    public static Results<Ok<LibraryLimit>, Refused> Get(string libraryId, LibraryFolder folder) =>
        folder.Library.Find(libraryId) is { } limit ? TypedResults.Ok(LibraryViews.Of(folder.Library, limit)) : ProblemAnswers.NotFound("limit of the library", libraryId);

    public static Results<Added<Limit>, Current<Limit>, Refused> Adopt(
        string vehicleId, Adoption input, LimitStore store, AdoptionRules rules, Entries entries, SqliteFile file)
    {
        if (Standing(file, store, vehicleId, input.Check) is { } before)
        {
            var replaced = entries.Change(store, before.Entry.Id, null, step => rules.Check(step, input), step => rules.Content(step, input));
            return replaced.Result is Refused no ? no : (Current<Limit>)replaced.Result;
        }

        var added = entries.Add(store, vehicleId, step => rules.Content(step, input), step => rules.Check(step, input));
        return added.Result is Refused refused ? refused : (Added<Limit>)added.Result;
    }

    /// <summary>What was taken for the check before: the new one becomes its next version.</summary>
    private static Limit? Standing(SqliteFile file, LimitStore store, string vehicleId, string check)
    {
        using var connection = file.Open();
        return store.OfVehicle(connection, vehicleId).LastOrDefault(l => l.Check == check && l.Trust != LimitWords.Own && l.Entry.VoidReason is null);
    }

    /// <summary>The car of a vehicle, as limits are looked up by.</summary>
    internal static WantedCar Car(Vehicle vehicle) =>
        new(vehicle.System, vehicle.Make, vehicle.Model, vehicle.Engine, BuildYear.TryRead(vehicle.Year, out var year, out var about) ? year : null, about);

    private static WantedCar Wanted(LibraryQuery query, Vehicle? vehicle, Faults faults)
    {
        var text = query.Year ?? vehicle?.Year;
        var about = false;
        var year = 0;
        if (text is not null && !BuildYear.TryRead(text, out year, out about))
        {
            faults.Add("year", Problems.ImpossibleDate, $"year \"{text}\" is none; write 1981, or 1981~ for about 1981.");
        }

        return new WantedCar(query.System ?? vehicle?.System, query.Make ?? vehicle?.Make, query.Model ?? vehicle?.Model, query.Engine ?? vehicle?.Engine, text is null ? null : year, about);
    }
}

/// <summary>The car may be given by a vehicle, by words, or by both: words go first.
/// Text: words, each of which the limit has in its title, car, point, set-up, print, trust, source or id.</summary>
public sealed record LibraryQuery(string? VehicleId, string? System, string? Make, string? Model, string? Engine, string? Year, string? Quantity, string? Check, string? Text);
