using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Options;

namespace FuelHistory.Host.Features.LeakDowns;

/// <summary>Leak-downs with their readings and what these say; each computed once for as long as nothing it depends on changes.</summary>
public sealed class LeakDownViews(
    SqliteFile file, LeakDownStore store, LeakReadingStore readings, LeakOutlooks outlooks, Revisions revisions, FaultModelFolder models,
    IOptions<JsonOptions> json)
{
    /// <summary>More leak-downs than anybody looks at in turn.</summary>
    private const int Most = 32;

    // the newest view of each: with every reading the one before is of no more use
    private readonly ConcurrentDictionary<string, (string Tag, byte[] Body)> newest = new();

    public Results<Kept<LeakDownView>, Refused> Answer(string entryId)
    {
        using var connection = file.Open();
        if (Tag(connection, entryId) is not { } tag)
        {
            return ProblemAnswers.NotFound(store.Noun, entryId);
        }

        return new Kept<LeakDownView>(Body(connection, entryId, tag), tag);
    }

    /// <returns>Null where there is no such leak-down.</returns>
    public LeakDownView? Find(SqliteConnection connection, string entryId) =>
        Tag(connection, entryId) is { } tag ? JsonSerializer.Deserialize<LeakDownView>(Body(connection, entryId, tag), json.Value.SerializerOptions) : null;

    /// <summary>Changes with whatever the view depends on. Read before the view itself: what comes in between makes the next answer new, never this one stale.</summary>
    public string? Tag(SqliteConnection connection, string entryId)
    {
        if (Ledger.Newest(connection, store.Kind, entryId) is not { } standing)
        {
            return null;
        }

        var revision = revisions.Of(standing.VehicleId!);
        var mark = readings.Mark(connection, entryId);
        return Tags.Of(standing.Head, string.Create(CultureInfo.InvariantCulture, $"{mark.Last}-{mark.TakenBack}-{revision.Vehicle}-{revision.Everything}-{Tags.Build}{models.Fingerprint}"));
    }

    private byte[] Body(SqliteConnection connection, string entryId, string tag)
    {
        if (newest.TryGetValue(entryId, out var kept) && kept.Tag == tag)
        {
            return kept.Body;
        }

        var leakDown = store.Versions(connection, entryId)[0];
        var all = readings.Of(connection, entryId);
        var body = JsonSerializer.SerializeToUtf8Bytes(new LeakDownView(leakDown, all, outlooks.Of(connection, leakDown, all)), json.Value.SerializerOptions);
        if (newest.Count >= Most)
        {
            newest.Clear();
        }

        newest[entryId] = (tag, body);
        return body;
    }
}
