using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>What forms offer to pick from. Empty where nothing is loaded: the plain commands take only the fields' names from it then.</summary>
internal sealed record FormData(
    ApiCalls Calls,
    TimeProvider Clock,
    IReadOnlyList<FaultModelHead> Systems,
    FaultModelView? Model,
    Settings? Settings,
    IReadOnlyList<Instrument> Instruments,
    Vehicle? Vehicle,
    Complaint? Complaint,
    IReadOnlyList<Finding> Findings)
{
    public IReadOnlyList<NamedThing> Components => Model is null ? [] : [.. Model.Components.Where(part => !part.Instrument).Select(part => new NamedThing(part.Id, part.Title))];

    public IReadOnlyList<NamedThing> Checks => Model is null ? [] : [.. Model.Checks.Select(check => new NamedThing(check.Id, check.Title))];

    public IReadOnlyList<NamedThing> Trials => Model is null ? [] : [.. Model.Trials.Select(trial => new NamedThing(trial.Id, trial.Title))];

    public string Currency => Settings?.Currency ?? "EUR";

    /// <summary>The unit that the user prefers for a quantity, else the check's own.</summary>
    public string? Unit(string? quantity, string? otherwise = null) =>
        quantity is not null && Settings is not null && Settings.Units.TryGetValue(quantity, out var unit) ? unit : otherwise;

    public static FormData Empty(ApiCalls calls, TimeProvider clock) => new(calls, clock, [], null, null, [], null, null, []);
}

/// <summary>Loads what the forms of a vehicle or a complaint need.</summary>
internal static class FormSource
{
    public static Task<Answer<FormData>> General(ApiCalls calls, TimeProvider clock, CancellationToken ct) =>
        Got(FormData.Empty(calls, clock))
            .Add(_ => calls.Ask(api => api.FaultModels(ct)), (data, systems) => data with { Systems = systems })
            .Add(_ => calls.Ask(api => api.Settings(ct)), (data, settings) => data with { Settings = settings })
            .Add(_ => calls.Ask(api => api.Instruments(ct)), (data, instruments) => data with { Instruments = [.. instruments.Where(each => each.Entry.VoidReason is null)] });

    public static Task<Answer<FormData>> Vehicle(ApiCalls calls, TimeProvider clock, string vehicleId, CancellationToken ct) =>
        General(calls, clock, ct)
            .Add(_ => calls.Ask(api => api.Vehicle(vehicleId, ct)), (data, vehicle) => data with { Vehicle = vehicle })
            .Add(data => calls.Ask(api => api.FaultModel(data.Vehicle!.System, ct)), (data, model) => data with { Model = model });

    public static async Task<Answer<FormData>> Complaint(ApiCalls calls, TimeProvider clock, string complaintId, CancellationToken ct)
    {
        var complaint = await calls.Ask(api => api.Complaint(complaintId, ct)).ConfigureAwait(false);
        return await complaint.Then(known => Vehicle(calls, clock, known.VehicleId, ct)
            .Add(_ => calls.Ask(api => api.ComplaintFindings(complaintId, ct)),
                (data, findings) => data with { Complaint = known, Findings = [.. findings.Where(each => each.Entry.VoidReason is null)] })).ConfigureAwait(false);
    }

    private static Task<Answer<FormData>> Got(FormData data) => Task.FromResult<Answer<FormData>>(new Got<FormData>(data));

    private static async Task<Answer<FormData>> Add<T>(this Task<Answer<FormData>> before, Func<FormData, Task<Answer<T>>> ask, Func<FormData, T, FormData> put)
    {
        var data = await before.ConfigureAwait(false);
        return await data.Then(async known => (await ask(known).ConfigureAwait(false)).As(value => put(known, value))).ConfigureAwait(false);
    }
}
