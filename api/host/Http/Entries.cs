using FuelHistory.Contracts;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;
using Microsoft.Data.Sqlite;

namespace FuelHistory.Host.Http;

/// <summary>What a kind of entry has of its own: its table.</summary>
public interface IEntryStore<in TInput, TEntry>
{
    /// <summary>As the ledger calls it.</summary>
    string Kind { get; }

    /// <summary>As messages call it.</summary>
    string Noun { get; }

    string Location(TEntry entry);
    EntryHead Head(TEntry entry);
    string Tag(TEntry entry) => Tags.Of(Head(entry));
    void Insert(Session session, long seq, TInput input);

    /// <summary>Newest first; empty where there is no such entry.</summary>
    IReadOnlyList<TEntry> Versions(SqliteConnection connection, string entryId);
}

/// <summary>One step under way: what its rules may look at, and where they put what they find.</summary>
/// <param name="Car">Null for entries of no vehicle.</param>
/// <param name="Present">The version that is to be replaced; null for a new entry.</param>
public sealed record Step(Session Session, Car? Car, Faults Faults, Standing? Present)
{
    public Days Days => Car?.Days(Session.Now, Session.Today) ?? Days.Any(Session.Now, Session.Today);
}

/// <summary>The mechanics that all entries share: each step is one transaction, checked whole before anything is written.</summary>
public sealed class Entries(SqliteFile file, Cars cars, TimeProvider clock)
{
    /// <param name="alongside">What is entered with it, in the same step; it is given the new entry's id.</param>
    public Results<Added<TEntry>, Refused> Add<TInput, TEntry>(
        IEntryStore<TInput, TEntry> store, string? vehicleId, TInput input, Func<Step, Refused?> check, Action<Session, string>? alongside = null) =>
        Add(store, vehicleId, _ => input, check, alongside);

    /// <summary>An entry whose content is made once the step is checked.</summary>
    public Results<Added<TEntry>, Refused> Add<TInput, TEntry>(
        IEntryStore<TInput, TEntry> store, string? vehicleId, Func<Step, TInput> content, Func<Step, Refused?> check, Action<Session, string>? alongside = null)
    {
        using Session session = new(file, clock);
        if (FindCar(session, vehicleId, out var car) is { } unusable)
        {
            return unusable;
        }

        Step step = new(session, car, new Faults(), null);
        if (Checked(step, check) is { } refusal)
        {
            return refusal;
        }

        var (seq, entryId) = Ledger.Begin(session, store.Kind, vehicleId);
        store.Insert(session, seq, content(step));
        alongside?.Invoke(session, entryId);
        var entry = store.Versions(session.Connection, entryId)[0];
        session.Commit();
        return new Added<TEntry>(entry, store.Location(entry), store.Tag(entry));
    }

    public Results<Current<TEntry>, Refused> Replace<TInput, TEntry>(
        IEntryStore<TInput, TEntry> store, string entryId, TInput input, string? ifMatch, Func<Step, Refused?> check) =>
        Change(store, entryId, ifMatch, check, _ => input);

    /// <summary>A next version whose content follows from the present one.</summary>
    public Results<Current<TEntry>, Refused> Change<TInput, TEntry>(
        IEntryStore<TInput, TEntry> store, string entryId, string? ifMatch, Func<Step, Refused?> check, Func<Step, TInput> content)
    {
        using Session session = new(file, clock);
        if (FindPresent(session, store.Kind, store.Noun, entryId, ifMatch, out var present, out var car) is { } unusable)
        {
            return unusable;
        }

        Step step = new(session, car, new Faults(), present);
        if (Checked(step, check) is { } refusal)
        {
            return refusal;
        }

        var input = content(step);
        store.Insert(session, Ledger.Follow(session, store.Kind, present!), input);
        var entry = store.Versions(session.Connection, entryId)[0];
        session.Commit();
        return new Current<TEntry>(entry, store.Tag(entry));
    }

    /// <param name="alongside">What no longer counts with it, in the same step.</param>
    public Results<Current<TEntry>, Refused> Void<TInput, TEntry>(
        IEntryStore<TInput, TEntry> store, string entryId, VoidRequest request, string? ifMatch, Action<Step>? alongside = null)
    {
        using Session session = new(file, clock);
        if (FindPresent(session, store.Kind, store.Noun, entryId, ifMatch, out var present, out var car) is { } unusable)
        {
            return unusable;
        }

        Faults faults = new();
        faults.Text("/reason", request.Reason, Lengths.Reason, required: true);
        if (!faults.None)
        {
            return ProblemAnswers.Invalid(faults);
        }

        alongside?.Invoke(new Step(session, car, faults, present));
        Ledger.Void(session, store.Kind, present!, request.Reason);
        var entry = store.Versions(session.Connection, entryId)[0];
        session.Commit();
        return new Current<TEntry>(entry, store.Tag(entry));
    }

    public Results<Current<TEntry>, Refused> Get<TInput, TEntry>(IEntryStore<TInput, TEntry> store, string entryId)
    {
        using var connection = file.Open();
        return store.Versions(connection, entryId) is [var newest, ..]
            ? new Current<TEntry>(newest, store.Tag(newest))
            : ProblemAnswers.NotFound(store.Noun, entryId);
    }

    /// <summary>Something is laid beside an entry that does not change what the entry itself says: no new version.</summary>
    public Refused? Beside<TInput, TEntry>(IEntryStore<TInput, TEntry> store, string entryId, Func<Step, Refused?> check, Action<Step> write)
    {
        using Session session = new(file, clock);
        if (FindPresent(session, store.Kind, store.Noun, entryId, null, out var present, out var car) is { } unusable)
        {
            return unusable;
        }

        Step step = new(session, car, new Faults(), present);
        if (Checked(step, check) is { } refusal)
        {
            return refusal;
        }

        write(step);
        session.Commit();
        return null;
    }

    public Results<Ok<IReadOnlyList<TEntry>>, Refused> Versions<TInput, TEntry>(IEntryStore<TInput, TEntry> store, string entryId)
    {
        using var connection = file.Open();
        var versions = store.Versions(connection, entryId);
        return versions.Count > 0 ? TypedResults.Ok(versions) : ProblemAnswers.NotFound(store.Noun, entryId);
    }

    /// <summary>What a list of a vehicle's entries needs: that there is such a vehicle.</summary>
    public Results<Ok<IReadOnlyList<TEntry>>, Refused> List<TEntry>(string vehicleId, Func<SqliteConnection, Car, IReadOnlyList<TEntry>> read)
    {
        using var connection = file.Open();
        return cars.Find(connection, vehicleId) is { } car ? TypedResults.Ok(read(connection, car)) : ProblemAnswers.NotFound("vehicle", vehicleId);
    }

    private Refused? FindPresent(Session session, string kind, string noun, string entryId, string? ifMatch, out Standing? present, out Car? car)
    {
        car = null;
        present = Ledger.Newest(session.Connection, kind, entryId);
        return present is null ? ProblemAnswers.NotFound(noun, entryId)
            : present.IsVoid ? ProblemAnswers.Closed($"This {noun} is void ({present.Head.VoidReason}); it stays readable and takes no further change. Make a new entry instead.")
            : !Tags.Allow(ifMatch, present.Head.Version) ? ProblemAnswers.Stale(ifMatch!, present.Head.Version)
            : FindCar(session, present.VehicleId, out car);
    }

    private Refused? FindCar(Session session, string? vehicleId, out Car? car)
    {
        car = null;
        if (vehicleId is null)
        {
            return null;
        }

        car = cars.Find(session.Connection, vehicleId);
        return car is null ? ProblemAnswers.NotFound("vehicle", vehicleId)
            : car.Vehicle.Archived ? ProblemAnswers.Closed($"The vehicle \"{car.Vehicle.Name}\" is archived; its record stays readable and takes no further change.")
            : null;
    }

    private static Refused? Checked(Step step, Func<Step, Refused?> check) =>
        check(step) ?? (step.Faults.None ? null : ProblemAnswers.Invalid(step.Faults));
}
