using FuelHistory.Contracts;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Http;

/// <summary>The routes that every versioned entry has: read one, read all versions, void.</summary>
public static class EntryRoutes
{
    public static void MapEntry<TStore, TInput, TEntry>(this IEndpointRouteBuilder api, string one, string versions, string voided, string name)
        where TStore : class, IEntryStore<TInput, TEntry>
    {
        api.Read(one, Get<TStore, TInput, TEntry>).Says($"get{name}", "The newest version of the entry, void or not").Refuses(404);
        api.Read(versions, Versions<TStore, TInput, TEntry>).Says($"list{name}Versions", "Every version of the entry, newest first").Refuses(404);
        api.MapPost(voided, Void<TStore, TInput, TEntry>).Says($"void{name}", "Say that the entry no longer counts, and why").Refuses(404, 409, 412, 422);
    }

    public static Results<Current<TEntry>, Refused> Get<TStore, TInput, TEntry>(string entryId, TStore store, Entries entries)
        where TStore : class, IEntryStore<TInput, TEntry> => entries.Get(store, entryId);

    public static Results<Ok<IReadOnlyList<TEntry>>, Refused> Versions<TStore, TInput, TEntry>(string entryId, TStore store, Entries entries)
        where TStore : class, IEntryStore<TInput, TEntry> => entries.Versions(store, entryId);

    public static Results<Current<TEntry>, Refused> Void<TStore, TInput, TEntry>(
        string entryId, VoidRequest request, [FromHeader(Name = "If-Match")] string? ifMatch, TStore store, Entries entries)
        where TStore : class, IEntryStore<TInput, TEntry> => entries.Void(store, entryId, request, ifMatch);
}
