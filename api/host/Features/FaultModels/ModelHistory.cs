using System.Collections.Concurrent;
using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Sqlite;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Features.FaultModels;

/// <param name="Note">What the reader of the answer must know about it; null where it is today's and always was.</param>
public sealed record ModelInUse(CompiledModel Model, string? Note);

/// <summary>Which text of a fault model was in use when. What is in use now is kept at the start, where it differs from what was loaded before.</summary>
public sealed class ModelHistory
{
    private readonly FaultModelFolder models;
    private readonly KeptModelStore store;
    private readonly ConcurrentDictionary<long, Lazy<CompiledModel?>> earlier = new();

    public ModelHistory(SqliteFile file, FaultModelFolder models, KeptModelStore store, TimeProvider clock)
    {
        (this.models, this.store) = (models, store);
        using Session session = new(file, clock);
        foreach (var model in models.Known)
        {
            var last = store.Of(session.Connection, model.Id) is [.., var newest] ? newest : null;
            if (last?.Sha256 != model.Sha256)
            {
                // a clock that was set back must not put a text before the one it follows
                store.Keep(session, model, last is not null && last.From > session.Now ? last.From : session.Now);
            }
        }

        session.Commit();
    }

    /// <summary>The model that answered at an instant.</summary>
    /// <exception cref="FaultModelUnusableException">There is no such model now.</exception>
    public ModelInUse At(SqliteConnection connection, string id, DateTimeOffset instant)
    {
        var now = models.NeededKnown(id);
        var revision = now.Revision;
        var (then, until) = Find(connection, id, instant);
        if (then is null)
        {
            return new ModelInUse(now.Loaded.Compiled, $"The record is taken as it was known then. Which revision of the fault model was in use then is not known; this is the one in use now, {id} revision {revision}.");
        }

        if (then.Sha256 == now.Sha256)
        {
            return new ModelInUse(now.Loaded.Compiled, $"The record is taken as it was known then, with the fault model of then, {id} revision {revision}, which is the one in use now.");
        }

        var past = earlier.GetOrAdd(then.Seq, _ => new(() => Read(store.Text(connection, then)))).Value;
        var inUse = $"{id} revision {then.Revision}, in use from {Day(then.From)}{(until is { } end ? $" to {Day(end)}" : "")}";
        return past is not null
            ? new ModelInUse(past, $"Record and fault model are taken as they were then: {inUse}. In use now is revision {revision}; asked without knownAt it answers by that.")
            : new ModelInUse(now.Loaded.Compiled, $"The record is taken as it was known then. The fault model of then ({inUse}) cannot be read by this program; this is the one in use now, revision {revision}.");
    }

    /// <summary>Today's model. The note says where another one was in use at an instant in the past.</summary>
    /// <param name="since">In words: what happened then.</param>
    /// <exception cref="FaultModelUnusableException">There is no such model now.</exception>
    public ModelInUse Now(SqliteConnection connection, string id, DateTimeOffset instant, string since)
    {
        var now = models.NeededKnown(id);
        var (then, _) = Find(connection, id, instant);
        return new ModelInUse(now.Loaded.Compiled, then is null || then.Sha256 == now.Sha256 ? null
            : $"The fault model has changed since {since}: {id} revision {then.Revision} then, {now.Revision} now. What was answered then is had with knownAt={Times.Write(instant)}.");
    }

    /// <summary>The one in use at the instant, and when the next one followed.</summary>
    private (KeptModel? Then, DateTimeOffset? Until) Find(SqliteConnection connection, string id, DateTimeOffset instant)
    {
        var kept = store.Of(connection, id);
        var then = kept.LastOrDefault(k => k.From <= instant);
        return (then, kept.FirstOrDefault(k => then is not null && k.Seq > then.Seq)?.From);
    }

    /// <returns>Null where this program's form of the file is another than that of then.</returns>
    private static CompiledModel? Read(string text)
    {
        try
        {
            var model = FaultModelReader.Read(text);
            return FaultModelLinter.Refusals(model).Count == 0 ? new CompiledModel(model) : null;
        }
        catch (FaultModelException)
        {
            return null;
        }
    }

    private static string Day(DateTimeOffset at) => at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
