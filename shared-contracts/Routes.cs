namespace FuelHistory.Contracts;

/// <summary>Every path, once; the host maps them and the client calls them.</summary>
public static class Routes
{
    public const string Vehicles = "/v1/vehicles";
    public const string Vehicle = "/v1/vehicles/{vehicleId}";
    public const string VehicleVersions = "/v1/vehicles/{vehicleId}/versions";
    public const string VehicleArchive = "/v1/vehicles/{vehicleId}/archive";

    public const string Odometers = "/v1/vehicles/{vehicleId}/odometer";
    public const string LayUps = "/v1/vehicles/{vehicleId}/lay-ups";
    public const string Incidents = "/v1/vehicles/{vehicleId}/incidents";
    public const string Works = "/v1/vehicles/{vehicleId}/work";
    public const string Limits = "/v1/vehicles/{vehicleId}/limits";
    public const string VehicleFindings = "/v1/vehicles/{vehicleId}/findings";
    public const string Complaints = "/v1/vehicles/{vehicleId}/complaints";
    public const string Record = "/v1/vehicles/{vehicleId}/record";
    public const string Report = "/v1/vehicles/{vehicleId}/report";

    public const string Odometer = "/v1/odometer/{entryId}";
    public const string OdometerVersions = "/v1/odometer/{entryId}/versions";
    public const string OdometerVoid = "/v1/odometer/{entryId}/void";
    public const string LayUp = "/v1/lay-ups/{entryId}";
    public const string LayUpVersions = "/v1/lay-ups/{entryId}/versions";
    public const string LayUpVoid = "/v1/lay-ups/{entryId}/void";
    public const string Incident = "/v1/incidents/{entryId}";
    public const string IncidentVersions = "/v1/incidents/{entryId}/versions";
    public const string IncidentVoid = "/v1/incidents/{entryId}/void";
    public const string Work = "/v1/work/{entryId}";
    public const string WorkVersions = "/v1/work/{entryId}/versions";
    public const string WorkVoid = "/v1/work/{entryId}/void";
    public const string Limit = "/v1/limits/{entryId}";
    public const string LimitVersions = "/v1/limits/{entryId}/versions";
    public const string LimitVoid = "/v1/limits/{entryId}/void";
    public const string Finding = "/v1/findings/{entryId}";
    public const string FindingVersions = "/v1/findings/{entryId}/versions";
    public const string FindingVoid = "/v1/findings/{entryId}/void";

    public const string Complaint = "/v1/complaints/{complaintId}";
    public const string ComplaintVersions = "/v1/complaints/{complaintId}/versions";
    public const string ComplaintVoid = "/v1/complaints/{complaintId}/void";
    public const string ComplaintClose = "/v1/complaints/{complaintId}/close";
    public const string ComplaintFindings = "/v1/complaints/{complaintId}/findings";
    public const string Assessment = "/v1/complaints/{complaintId}/assessment";
    public const string Advice = "/v1/complaints/{complaintId}/advice";
    public const string WhatIf = "/v1/complaints/{complaintId}/assessment/what-if";

    public const string SetAsides = "/v1/complaints/{complaintId}/set-aside";
    public const string SetAside = "/v1/set-aside/{entryId}";
    public const string SetAsideVersions = "/v1/set-aside/{entryId}/versions";
    public const string SetAsideVoid = "/v1/set-aside/{entryId}/void";

    public const string LeakDowns = "/v1/complaints/{complaintId}/leak-downs";
    public const string LeakDown = "/v1/leak-downs/{entryId}";
    public const string LeakDownVersions = "/v1/leak-downs/{entryId}/versions";
    public const string LeakDownVoid = "/v1/leak-downs/{entryId}/void";
    public const string LeakDownReadings = "/v1/leak-downs/{entryId}/readings";
    public const string LeakDownTakeBack = "/v1/leak-downs/{entryId}/readings/{readingId}/take-back";
    public const string LeakDownFinish = "/v1/leak-downs/{entryId}/finish";
    public const string LeakDownAssessment = "/v1/leak-downs/{entryId}/assessment";
    public const string LeakDownImport = "/v1/leak-downs/{entryId}/import";
    public const string LeakDownRaw = "/v1/leak-downs/{entryId}/raw";
    public const string LeakDownChart = "/v1/leak-downs/{entryId}/chart";
    public const string TrendChart = "/v1/vehicles/{vehicleId}/trend/chart";

    public const string Instruments = "/v1/instruments";
    public const string Instrument = "/v1/instruments/{entryId}";
    public const string InstrumentVersions = "/v1/instruments/{entryId}/versions";
    public const string InstrumentVoid = "/v1/instruments/{entryId}/void";

    public const string Settings = "/v1/settings";
    public const string FaultModels = "/v1/fault-models";
    public const string RefusedFaultModels = "/v1/refused-fault-models";
    public const string FaultModel = "/v1/fault-models/{faultModelId}";
    public const string Check = "/v1/fault-models/{faultModelId}/checks/{checkId}";
    public const string FaultModelStudy = "/v1/fault-models/{faultModelId}/study";
    public const string FaultModelPage = "/v1/fault-models/{faultModelId}/page";

    public const string LimitsLibrary = "/v1/limits-library";
    public const string LibraryLimit = "/v1/limits-library/{libraryId}";
    public const string AdoptLimit = "/v1/vehicles/{vehicleId}/limits/adopt";

    public const string Live = "/livez";
    public const string Ready = "/readyz";
    public const string OpenApi = "/openapi/v1.json";
}
