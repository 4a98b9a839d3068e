using System.Globalization;
using FuelHistory.Client.Api;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;
using Refit;

namespace FuelHistory.Client.Forms;

/// <summary>Corrects an entry: its form with what stands there now, saved as the next version unless somebody else was faster.</summary>
internal sealed class Correcting(ApiCalls calls, TimeProvider clock, CancellationToken ct)
{
    public static readonly IReadOnlyList<string> Kinds = ["vehicle", "odometer", "lay-up", "incident", "work", "limit", "finding", "complaint", "instrument"];

    /// <param name="everyField">A finding's form with all the fields that any has, in the order of the plain command.</param>
    public Task<Answer<Form>> Form(string kind, string id, bool everyField = false) => kind switch
    {
        "vehicle" => Of(kind, api => api.Vehicle(id, ct), was => was.Entry, was => was.Entry.Id, (data, was) => VehicleForms.Vehicle(data, Put<NewVehicle, Vehicle>((api, body, stop) => api.CorrectVehicle(id, Version(was.Entry), body, stop), now => now.Entry)).WithVehicle(was)),
        "odometer" => Of(kind, api => api.Odometer(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => VehicleForms.Odometer(data, Put<NewOdometer, Odometer>((api, body, stop) => api.CorrectOdometer(id, Version(was.Entry), body, stop), now => now.Entry))
            .With("date", was.Date).With("reading", Figures.Of(was.Reading)).With("newClock", was.NewClock is null ? "" : Figures.Of(was.NewClock)).With("note", was.Note)),
        "lay-up" => Of(kind, api => api.LayUp(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => VehicleForms.LayUp(data, Put<NewLayUp, LayUp>((api, body, stop) => api.CorrectLayUp(id, Version(was.Entry), body, stop), now => now.Entry))
            .With("from", was.From).With("to", was.To).With("note", was.Note)),
        "incident" => Of(kind, api => api.Incident(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => VehicleForms.Incident(data, Put<NewIncident, Incident>((api, body, stop) => api.CorrectIncident(id, Version(was.Entry), body, stop), now => now.Entry))
            .With("date", was.Date).With("kind", was.Kind).With("note", was.Note)),
        "work" => Of(kind, api => api.Work(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => VehicleForms.Work(data, Put<NewWork, Work>((api, body, stop) => api.CorrectWork(id, Version(was.Entry), body, stop), now => now.Entry)).WithWork(Prefilled.Of(was))),
        "limit" => Of(kind, api => api.Limit(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => BenchForms.Limit(data, Put<NewLimit, Limit>((api, body, stop) => api.CorrectLimit(id, Version(was.Entry), body, stop), now => now.Entry)).WithLimit(was)),
        "finding" => Of(kind, api => api.Finding(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => Finding(data, was, everyField, Put<NewFinding, Finding>((api, body, stop) => api.CorrectFinding(id, Version(was.Entry), body, stop), now => now.Entry))),
        "complaint" => Of(kind, api => api.Complaint(id, ct), was => was.Entry, was => was.VehicleId, (data, was) => ComplaintForms.Change(data, Put<ComplaintChange, Complaint>((api, body, stop) => api.CorrectComplaint(id, Version(was.Entry), body, stop), now => now.Entry))
            .With("title", was.Title).With("since", was.Since).With("course", was.Course).With("always", was.Always ? "yes" : "no").With("main", was.Main).With("onset", was.Onset).With("note", was.Note)),
        "instrument" => Of(kind, api => api.Instrument(id, ct), was => was.Entry, _ => null, (data, was) => BenchForms.Instrument(data, Put<NewInstrument, Instrument>((api, body, stop) => api.CorrectInstrument(id, Version(was.Entry), body, stop), now => now.Entry)).WithInstrument(was)),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not an entry that can be corrected"),
    };

    private async Task<Answer<Form>> Of<T>(string kind, Func<IFuelApi, Task<IApiResponse<T>>> read, Func<T, EntryHead> head, Func<T, string?> vehicleId, Func<FormData, T, Form> make) =>
        await (await calls.Ask(read).ConfigureAwait(false)).Then(async was =>
            (await (vehicleId(was) is { } vehicle ? FormSource.Vehicle(calls, clock, vehicle, ct) : FormSource.General(calls, clock, ct)).ConfigureAwait(false))
                .As(data => Titled(make(data, was), kind, head(was).Version))).ConfigureAwait(false);

    private static Form Titled(Form form, string kind, int version) =>
        form with { Title = kind is "finding" ? $"Correct version {version}: {form.Title}" : $"Correct this {kind}, version {version}" };

    private static Form Finding(FormData data, Finding was, bool everyField, Save<NewFinding> save)
    {
        var form = everyField ? FindingForms.Any(data, save)
            : data.Model!.Checks.FirstOrDefault(check => check.Id == was.Check) is { } check ? FindingForms.Check(data, check, check.Title, save)
            : was.Event is not null ? FindingForms.Event(data, save)
            : was.Trial is not null ? FindingForms.Trial(data, null, save)
            : was.Own is not null ? FindingForms.Own(data, save)
            : FindingForms.Seen(data, save);
        return form.With("check", was.Check).WithFinding(Prefilled.Of(was)).With("at", Prefilled.Moment(was.At));
    }

    // what loaded the form may be gone when it is saved: saving has a token of its own
    private Save<TBody> Put<TBody, T>(Func<IFuelApi, TBody, CancellationToken, Task<IApiResponse<T>>> put, Func<T, EntryHead> head) => async (body, stop) =>
        (await calls.Ask(api => put(api, body, stop)).ConfigureAwait(false)).As(now => new Stored($"Corrected; version {head(now).Version} counts now.", head(now).Id));

    private static string Version(EntryHead head) => string.Create(CultureInfo.InvariantCulture, $"\"{head.Version}\"");
}
