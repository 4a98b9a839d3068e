using FuelHistory.Contracts;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.Instruments;

public static class InstrumentEndpoints
{
    public static void MapInstruments(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Instruments");
        api.Read(Routes.Instruments, List).Says("listInstruments", "Gauges, meters and vessels, without void entries");
        api.MapPost(Routes.Instruments, Add).Says("addInstrument", "Enter a gauge, meter or vessel with its accuracy").Refuses(422);
        api.MapPut(Routes.Instrument, Replace).Says("replaceInstrument", "Correct an instrument: a new version").Refuses(404, 409, 412, 422);
        api.MapEntry<InstrumentStore, NewInstrument, Instrument>(Routes.Instrument, Routes.InstrumentVersions, Routes.InstrumentVoid, "Instrument");
    }

    public static Ok<IReadOnlyList<Instrument>> List(InstrumentStore store, SqliteFile file)
    {
        using var connection = file.Open();
        return TypedResults.Ok<IReadOnlyList<Instrument>>([.. store.All(connection).Where(i => i.Entry.VoidReason is null)]);
    }

    public static Results<Added<Instrument>, Refused> Add(NewInstrument input, InstrumentStore store, InstrumentRules rules, Entries entries) =>
        entries.Add(store, null, input, step => rules.Check(step, input));

    public static Results<Current<Instrument>, Refused> Replace(
        string entryId, NewInstrument input, [FromHeader(Name = "If-Match")] string? ifMatch, InstrumentStore store, InstrumentRules rules, Entries entries) =>
        entries.Replace(store, entryId, input, ifMatch, step => rules.Check(step, input));
}
