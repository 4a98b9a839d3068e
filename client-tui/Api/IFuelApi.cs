using System.Text.Json;
using FuelHistory.Contracts;
using Refit;

namespace FuelHistory.Client.Api;

/// <summary>The host's routes as the client uses them; the paths are the contract's.</summary>
internal interface IFuelApi
{
    [Get(Routes.Live)] Task<IApiResponse<Health>> Live(CancellationToken ct);

    [Get(Routes.Vehicles)] Task<IApiResponse<IReadOnlyList<Vehicle>>> Vehicles([Query] string? archived, CancellationToken ct);
    [Get(Routes.Vehicle)] Task<IApiResponse<Vehicle>> Vehicle(string vehicleId, CancellationToken ct);
    [Get(Routes.Record)] Task<IApiResponse<RecordView>> Record(string vehicleId, CancellationToken ct);
    [Get(Routes.Report)] Task<IApiResponse<string>> Report(string vehicleId, CancellationToken ct);
    [Get(Routes.Complaints)] Task<IApiResponse<IReadOnlyList<Complaint>>> Complaints(string vehicleId, CancellationToken ct);
    [Get(Routes.Limits)] Task<IApiResponse<IReadOnlyList<Limit>>> Limits(string vehicleId, CancellationToken ct);
    [Get(Routes.Complaint)] Task<IApiResponse<Complaint>> Complaint(string complaintId, CancellationToken ct);
    [Get(Routes.ComplaintFindings)] Task<IApiResponse<IReadOnlyList<Finding>>> ComplaintFindings(string complaintId, CancellationToken ct);
    [Get(Routes.Assessment)] Task<IApiResponse<Assessment>> Assessment(string complaintId, [Query] string? asOf, [Query] string? knownAt, [Query] string? reasons, CancellationToken ct);
    [Get(Routes.Advice)] Task<IApiResponse<Advice>> Advice(string complaintId, [Query] string? asOf, [Query] string? knownAt, CancellationToken ct);
    [Get(Routes.Instruments)] Task<IApiResponse<IReadOnlyList<Instrument>>> Instruments(CancellationToken ct);
    [Get(Routes.Settings)] Task<IApiResponse<Settings>> Settings(CancellationToken ct);
    [Get(Routes.FaultModels)] Task<IApiResponse<IReadOnlyList<FaultModelHead>>> FaultModels(CancellationToken ct);
    [Get(Routes.FaultModel)] Task<IApiResponse<FaultModelView>> FaultModel(string faultModelId, CancellationToken ct);
    [Get(Routes.RefusedFaultModels)] Task<IApiResponse<IReadOnlyList<RefusedFaultModel>>> RefusedFaultModels(CancellationToken ct);
    [Get(Routes.FaultModelStudy)] Task<IApiResponse<FaultModelStudy>> FaultModelStudy(string faultModelId, CancellationToken ct);
    [Get(Routes.Check)] Task<IApiResponse<CheckView>> Check(string faultModelId, string checkId, CancellationToken ct);

    [Get(Routes.LimitsLibrary)] Task<IApiResponse<IReadOnlyList<LibraryLimit>>> LimitsLibrary([Query] string? vehicleId, [Query] string? quantity, [Query] string? check, [Query] string? text, CancellationToken ct);
    [Get(Routes.LibraryLimit)] Task<IApiResponse<LibraryLimit>> LibraryLimit(string libraryId, CancellationToken ct);
    [Post(Routes.AdoptLimit)] Task<IApiResponse<Limit>> AdoptLimit(string vehicleId, [Body] Adoption body, CancellationToken ct);

    [Get(Routes.Odometer)] Task<IApiResponse<Odometer>> Odometer(string entryId, CancellationToken ct);
    [Get(Routes.LayUp)] Task<IApiResponse<LayUp>> LayUp(string entryId, CancellationToken ct);
    [Get(Routes.Incident)] Task<IApiResponse<Incident>> Incident(string entryId, CancellationToken ct);
    [Get(Routes.Work)] Task<IApiResponse<Work>> Work(string entryId, CancellationToken ct);
    [Get(Routes.Limit)] Task<IApiResponse<Limit>> Limit(string entryId, CancellationToken ct);
    [Get(Routes.Finding)] Task<IApiResponse<Finding>> Finding(string entryId, CancellationToken ct);
    [Get(Routes.Instrument)] Task<IApiResponse<Instrument>> Instrument(string entryId, CancellationToken ct);

    [Post(Routes.Vehicles)] Task<IApiResponse<Vehicle>> AddVehicle([Body] NewVehicle body, CancellationToken ct);
    [Post(Routes.Odometers)] Task<IApiResponse<Odometer>> AddOdometer(string vehicleId, [Body] NewOdometer body, CancellationToken ct);
    [Post(Routes.LayUps)] Task<IApiResponse<LayUp>> AddLayUp(string vehicleId, [Body] NewLayUp body, CancellationToken ct);
    [Post(Routes.Incidents)] Task<IApiResponse<Incident>> AddIncident(string vehicleId, [Body] NewIncident body, CancellationToken ct);
    [Post(Routes.Works)] Task<IApiResponse<Work>> AddWork(string vehicleId, [Body] NewWork body, CancellationToken ct);
    [Post(Routes.Limits)] Task<IApiResponse<Limit>> AddLimit(string vehicleId, [Body] NewLimit body, CancellationToken ct);
    [Post(Routes.Complaints)] Task<IApiResponse<Complaint>> AddComplaint(string vehicleId, [Body] NewComplaint body, CancellationToken ct);
    [Post(Routes.VehicleFindings)] Task<IApiResponse<Finding>> AddVehicleFinding(string vehicleId, [Body] NewFinding body, CancellationToken ct);
    [Post(Routes.ComplaintFindings)] Task<IApiResponse<Finding>> AddComplaintFinding(string complaintId, [Body] NewFinding body, CancellationToken ct);
    [Post(Routes.ComplaintClose)] Task<IApiResponse<Complaint>> CloseComplaint(string complaintId, [Body] Closing body, CancellationToken ct);
    [Post(Routes.SetAsides)] Task<IApiResponse<SetAside>> SetAside(string complaintId, [Body] NewSetAside body, CancellationToken ct);
    [Post(Routes.WhatIf)] Task<IApiResponse<WhatIfAnswer>> WhatIf(string complaintId, [Body] WhatIf body, CancellationToken ct);
    [Post(Routes.Instruments)] Task<IApiResponse<Instrument>> AddInstrument([Body] NewInstrument body, CancellationToken ct);
    [Put(Routes.Settings)] Task<IApiResponse<Settings>> SetSettings([Body] Settings body, CancellationToken ct);

    [Put(Routes.Odometer)] Task<IApiResponse<Odometer>> CorrectOdometer(string entryId, [Header("If-Match")] string version, [Body] NewOdometer body, CancellationToken ct);
    [Put(Routes.LayUp)] Task<IApiResponse<LayUp>> CorrectLayUp(string entryId, [Header("If-Match")] string version, [Body] NewLayUp body, CancellationToken ct);
    [Put(Routes.Incident)] Task<IApiResponse<Incident>> CorrectIncident(string entryId, [Header("If-Match")] string version, [Body] NewIncident body, CancellationToken ct);
    [Put(Routes.Work)] Task<IApiResponse<Work>> CorrectWork(string entryId, [Header("If-Match")] string version, [Body] NewWork body, CancellationToken ct);
    [Put(Routes.Limit)] Task<IApiResponse<Limit>> CorrectLimit(string entryId, [Header("If-Match")] string version, [Body] NewLimit body, CancellationToken ct);
    [Put(Routes.Finding)] Task<IApiResponse<Finding>> CorrectFinding(string entryId, [Header("If-Match")] string version, [Body] NewFinding body, CancellationToken ct);
    [Put(Routes.Instrument)] Task<IApiResponse<Instrument>> CorrectInstrument(string entryId, [Header("If-Match")] string version, [Body] NewInstrument body, CancellationToken ct);
    [Put(Routes.Vehicle)] Task<IApiResponse<Vehicle>> CorrectVehicle(string vehicleId, [Header("If-Match")] string version, [Body] NewVehicle body, CancellationToken ct);
    [Put(Routes.Complaint)] Task<IApiResponse<Complaint>> CorrectComplaint(string complaintId, [Header("If-Match")] string version, [Body] ComplaintChange body, CancellationToken ct);

    [Get(Routes.LeakDowns)] Task<IApiResponse<IReadOnlyList<LeakDown>>> LeakDowns(string complaintId, CancellationToken ct);
    [Post(Routes.LeakDowns)] Task<IApiResponse<LeakDown>> BeginLeakDown(string complaintId, [Body] NewLeakDown body, CancellationToken ct);
    [Get(Routes.LeakDown)] Task<IApiResponse<LeakDownView>> LeakDown(string entryId, CancellationToken ct);
    [Put(Routes.LeakDown)] Task<IApiResponse<LeakDown>> CorrectLeakDown(string entryId, [Body] NewLeakDown body, CancellationToken ct);
    [Post(Routes.LeakDownReadings)] Task<IApiResponse<LeakDownView>> AddLeakReadings(string entryId, [Body] NewLeakReadings body, CancellationToken ct);
    [Post(Routes.LeakDownTakeBack)] Task<IApiResponse<LeakDownView>> TakeBackLeakReading(string entryId, string readingId, CancellationToken ct);
    [Post(Routes.LeakDownFinish)] Task<IApiResponse<LeakDown>> FinishLeakDown(string entryId, CancellationToken ct);
    [Post(Routes.LeakDownImport), Headers("Content-Type: text/csv")]
    Task<IApiResponse<LeakDownView>> ImportLeakDown(string entryId, [Body] Stream csv, [Query] string? time, [Query] string? value, [Query] string? unit, [Query] string? timeUnit, [Query] string? stop,
        [AliasAs("decimal")] string? point, [Query] string? delimiter, [Query] string? header, [Query] string? skip, [Query] string? confirmed, CancellationToken ct);
    [Post(Routes.LeakDownVoid)] Task<IApiResponse<JsonElement>> VoidLeakDown(string entryId, [Body] VoidRequest body, CancellationToken ct);

    [Post(Routes.VehicleArchive)] Task<IApiResponse<Vehicle>> Archive(string vehicleId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.OdometerVoid)] Task<IApiResponse<JsonElement>> VoidOdometer(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.LayUpVoid)] Task<IApiResponse<JsonElement>> VoidLayUp(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.IncidentVoid)] Task<IApiResponse<JsonElement>> VoidIncident(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.WorkVoid)] Task<IApiResponse<JsonElement>> VoidWork(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.LimitVoid)] Task<IApiResponse<JsonElement>> VoidLimit(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.FindingVoid)] Task<IApiResponse<JsonElement>> VoidFinding(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.SetAsideVoid)] Task<IApiResponse<JsonElement>> VoidSetAside(string entryId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.ComplaintVoid)] Task<IApiResponse<JsonElement>> VoidComplaint(string complaintId, [Body] VoidRequest body, CancellationToken ct);
    [Post(Routes.InstrumentVoid)] Task<IApiResponse<JsonElement>> VoidInstrument(string entryId, [Body] VoidRequest body, CancellationToken ct);
}
